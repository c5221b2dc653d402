// Keeps the frame of the tablet's offline page, nothing else: no page of the shop, no data, no answer of the server.
// The address it is registered under carries a hash of all its files, so a new build brings a new worker, and that drops the old frame.
const prefix = "shop-tablet:";
const kept = prefix + (new URL(self.location.href).searchParams.get("v") ?? "");
const page = "/tablet-offline.html";
const files = [
  page, "/css/app.css", "/css/forms.css", "/css/marks.css", "/css/shell.css", "/css/offline.css", "/mark.svg",
  "/fonts/SourceSans3-Regular.woff2", "/fonts/SourceSans3-Semibold.woff2", "/fonts/SourceSans3-Bold.woff2",
  "/js/kept-work.js", "/js/shell.js", "/js/outbox.js", "/js/photos.js", "/js/drafts.js", "/js/bay.js", "/js/measure.js", "/js/pulse.js", "/js/offline-page.js",
];
// A silent Wi-Fi would leave the screen white for minutes.
const patience = 6000;

self.addEventListener("install", event => event.waitUntil((async () => {
  const cache = await caches.open(kept);
  await cache.addAll(files.map(file => new Request(file, { cache: "reload" })));
  await self.skipWaiting();
})()));

self.addEventListener("activate", event => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith(prefix) && name !== kept) await caches.delete(name);
  await self.clients.claim();
})()));

async function open(request) {
  const late = new Promise((_, reject) => setTimeout(reject, patience, new Error("no answer")));
  try {
    const answer = await Promise.race([fetch(request), late]);
    // What a reverse proxy says when the program behind it is gone.
    if (![502, 503, 504].includes(answer.status)) return answer;
  } catch { /* No answer: the offline page has the rest. */ }
  return await (await caches.open(kept)).match(page) ?? Response.error();
}

self.addEventListener("fetch", event => {
  const { request } = event;
  const address = new URL(request.url);
  if (request.method !== "GET" || address.origin !== self.location.origin) return;
  if (request.mode === "navigate") event.respondWith(open(request));
  else if (files.includes(address.pathname) && address.search === "") {
    event.respondWith(caches.open(kept).then(cache => cache.match(request)).then(found => found ?? fetch(request)));
  }
});
