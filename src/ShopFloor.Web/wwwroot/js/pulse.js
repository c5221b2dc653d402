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

  async function beat() {
    if (beating || document.visibilityState !== "visible") return;
    clearTimeout(timer);
    beating = true;
    const began = performance.now(), somebody = touched;
    touched = false;
    try {
      await fetch("/alive", { method: "POST", cache: "no-store", redirect: "manual", credentials: somebody ? "same-origin" : "omit", signal: AbortSignal.timeout(patience) });
      failures = 0;
      lastSign = performance.now();
      say(false);
    } catch (fault) {
      touched ||= somebody;
      failures++;
      // A timeout has waited long enough; a refused connection comes at once and may be a blink, so it is asked twice.
      const certain = fault.name === "TimeoutError" ? lastSign <= began : failures > 1;
      if (certain) say(true);
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
