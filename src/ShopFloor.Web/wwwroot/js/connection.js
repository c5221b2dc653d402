// Starts Blazor and says in a strip, never a blocking box, when the link is lost. What is on the screen stays.
(() => {
  "use strict";
  const root = document.documentElement;
  const strip = document.getElementById("connection-bar");
  const words = strip.querySelector("[data-link-words]");
  const lostWords = "No connection: ticks are kept on this tablet and sent when it is back. What you see stays.";
  const patience = 800;
  let circuitDown = false, networkDown = false, serverSilent = false, paused = false, showTimer = 0;

  function show() {
    const down = circuitDown || networkDown || serverSilent;
    clearTimeout(showTimer);
    if (down && root.dataset.link !== "down") {
      // A blink of the link is not worth a word; a silence has been waited for already.
      showTimer = setTimeout(() => { words.textContent = lostWords; root.dataset.link = "down"; }, serverSilent ? 0 : patience);
    } else if (!down && root.dataset.link !== "up") {
      const was = root.dataset.link;
      root.dataset.link = "up";
      words.textContent = "";
      if (was === "down") document.dispatchEvent(new CustomEvent("shop-link-up"));
    }
  }

  // The waiting reconnect loop of blazor.web.js listens for this event and tries at once.
  const kick = () => document.dispatchEvent(new Event("visibilitychange"));

  async function retry() {
    if (!circuitDown) return show();
    if (!paused) return kick();
    try {
      if (await Blazor.resumeCircuit()) { paused = false; circuitDown = false; show(); } else reload();
    } catch { /* The server cannot be reached; the next sign of life tries again. */ }
  }

  // The server answered but no longer knows this page. Typed text is in the drafts, presses are in the outbox.
  async function reload() {
    window.shopDrafts?.flush();
    const last = Number(sessionStorage.getItem("shop-reloaded") ?? 0);
    const pause = Date.now() - last < 10000 ? 5000 : 0;
    await new Promise(resolve => setTimeout(resolve, pause));
    // A reload without a server would trade this page for the browser's error page.
    try { await fetch(location.href, { method: "HEAD", cache: "no-store" }); } catch { setTimeout(reload, 2000); return; }
    sessionStorage.setItem("shop-reloaded", String(Date.now()));
    location.reload();
  }

  strip.addEventListener("components-reconnect-state-changed", event => {
    switch (event.detail.state) {
      case "show":
      case "retrying": circuitDown = true; break;
      case "hide": circuitDown = paused = false; break;
      case "paused": circuitDown = paused = true; break;
      case "failed": circuitDown = true; setTimeout(() => Blazor.reconnect().then(known => known || reload(), () => {}), 5000); break;
      case "resume-failed":
      case "rejected": reload(); return;
    }
    show();
  });
  addEventListener("offline", () => { networkDown = true; show(); });
  addEventListener("online", () => { networkDown = false; show(); retry(); });
  document.addEventListener("shop-server-silent", () => { serverSilent = true; show(); });
  document.addEventListener("shop-server-answers", () => { serverSilent = false; show(); retry(); });
  addEventListener("pageshow", event => { if (event.persisted) retry(); });
  document.addEventListener("visibilitychange", () => { if (paused && document.visibilityState === "visible") retry(); });
  strip.querySelector("[data-link-retry]").addEventListener("click", () => { retry(); window.shopPulse?.beat(); window.shopOutbox?.retryNow(); window.shopPhotos?.retryNow(); });

  networkDown = !navigator.onLine;
  show();
  setTimeout(() => {
    const slow = document.querySelector(".app-shell") ? null : document.querySelector("[data-loading-words]");
    if (!slow) return;
    slow.textContent = "Still connecting. Check the Wi-Fi, then ";
    const again = document.createElement("a");
    again.href = location.href;
    again.textContent = "load the page again";
    slow.append(again, ".");
  }, 8000);

  Blazor.start({
    circuit: {
      // The server pings every 3 s; two missed pings and a little air mean the link is gone.
      configureSignalR: builder => builder.withServerTimeout(8000).withKeepAliveInterval(3000),
      reconnectionOptions: { dialogId: "connection-bar", maxRetries: 1000000, retryIntervalMilliseconds: attempt => attempt === 0 ? 0 : Math.min(500 * 2 ** Math.min(attempt, 4), 5000) },
    },
  });
})();
