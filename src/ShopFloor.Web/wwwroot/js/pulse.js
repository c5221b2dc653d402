// Asks the server for a sign of life while the page is looked at, because a Wi-Fi that swallows everything silently closes no connection.
// A beat carries the sign-in only after somebody touched the screen, so that an abandoned tablet still locks itself.
(() => {
  "use strict";
  const pause = 600;
  // One beat may take this long: a link of 800 ms there and back stays well under it.
  const patience = 2000;
  const root = document.documentElement;
  let silent = null, lastSign = performance.now(), failures = 0, touched = true, timer = 0, beating = false;

  // Any answer is a sign of life: pictures on a slow link may keep a beat waiting for a free connection.
  try {
    new PerformanceObserver(list => {
      for (const entry of list.getEntries()) if (entry.responseStatus > 0) lastSign = Math.max(lastSign, entry.responseEnd);
    }).observe({ type: "resource" });
  } catch { /* Without the list of answers the beat alone decides. */ }

  for (const sign of ["pointerdown", "keydown"]) addEventListener(sign, () => { touched = true; }, { capture: true, passive: true });

  function say(now) {
    if (silent === now) return;
    const wasSilent = silent === true;
    silent = now;
    root.dataset.server = silent ? "silent" : "answers";
    document.dispatchEvent(new CustomEvent(silent ? "shop-server-silent" : "shop-server-answers", { detail: { wasSilent } }));
  }

  function ask(somebody, milliseconds) {
    const limit = new AbortController();
    const timer = setTimeout(() => limit.abort(), milliseconds);
    return fetch("/alive", { method: "POST", cache: "no-store", redirect: "manual", credentials: somebody ? "same-origin" : "omit", signal: limit.signal })
      .finally(() => clearTimeout(timer));
  }
  // One stuck connection is no lost link: halfway through the wait the question is put once more. Says whether it was the first that was answered,
  // and settles by its own clock, whatever becomes of the requests.
  const answered = somebody => new Promise((resolve, reject) => {
    const halfway = setTimeout(() => ask(false, patience / 2).then(() => resolve(false), () => {}), patience / 2);
    setTimeout(() => reject(new Error("No answer.")), patience);
    ask(somebody, patience + 1000).then(() => resolve(true), reject).finally(() => clearTimeout(halfway));
  });

  async function beat() {
    if (beating || document.visibilityState !== "visible") return;
    clearTimeout(timer);
    beating = true;
    const began = performance.now(), somebody = touched;
    touched = false;
    try {
      if (!await answered(somebody)) touched ||= somebody;
      failures = 0;
      lastSign = performance.now();
      say(false);
    } catch {
      touched ||= somebody;
      failures++;
      const took = performance.now() - began;
      // A silence that was waited for in full is certain, unless the page itself was held up; a refusal at once may be a blink, so it is asked twice.
      const silence = took > patience - 50 && took < patience + 500 && lastSign <= began;
      if (silence || failures > 1) say(true);
    } finally {
      beating = false;
      timer = setTimeout(beat, pause);
    }
  }

  document.addEventListener("visibilitychange", beat);
  addEventListener("online", beat);
  window.shopPulse = { beat, get silent() { return silent === true; } };
  beat();
})();
