// Records the tablet's microphone as 16-bit WAVE, without playing anything, and hands the file to the picker beside it.
(() => {
  "use strict";
  const longest = 75; // seconds: the longest sweep and some silence
  let take = null, asking = false;
  const part = (box, name) => box.querySelector(`[data-microphone-${name}]`);
  const say = (box, words) => { part(box, "words").textContent = words; };
  function show(box, recording) {
    part(box, "start").hidden = recording;
    for (const name of ["stop", "cancel", "level"]) part(box, name).hidden = !recording;
  }
  function wave(pieces, rate) {
    const length = pieces.reduce((sum, piece) => sum + piece.length, 0), bytes = new DataView(new ArrayBuffer(44 + 2 * length));
    const word = (at, text) => [...text].forEach((letter, n) => bytes.setUint8(at + n, letter.charCodeAt(0)));
    word(0, "RIFF"); bytes.setUint32(4, 36 + 2 * length, true); word(8, "WAVEfmt "); bytes.setUint32(16, 16, true); bytes.setUint16(20, 1, true); bytes.setUint16(22, 1, true);
    bytes.setUint32(24, rate, true); bytes.setUint32(28, 2 * rate, true); bytes.setUint16(32, 2, true); bytes.setUint16(34, 16, true); word(36, "data"); bytes.setUint32(40, 2 * length, true);
    let at = 44;
    for (const piece of pieces) for (const sample of piece) { bytes.setInt16(at, Math.max(-32767, Math.min(32767, Math.round(sample * 32767))), true); at += 2; }
    return bytes.buffer;
  }
  function end() {
    if (!take) return;
    clearTimeout(take.timer);
    take.stream.getTracks().forEach(track => track.stop());
    take.context.close();
    take = null;
  }
  async function start(box) {
    if (take || asking) return;
    asking = true; // the browser asks its question once, however often the button is pressed meanwhile
    try { await record(box); } finally { asking = false; }
  }
  async function record(box) {
    if (!navigator.mediaDevices?.getUserMedia) { say(box, "This browser gives no microphone here; it does so only over https or on the shop's own computer."); return; }
    let stream;
    try {
      stream = await navigator.mediaDevices.getUserMedia({ audio: { autoGainControl: false, echoCancellation: false, noiseSuppression: false, channelCount: 1 } });
    } catch (refused) {
      say(box, refused.name === "NotAllowedError" ? "The microphone was not allowed. Allow it in the browser's settings of this page." : "There is no microphone that can be used.");
      return;
    }
    const pieces = [];
    let context = new AudioContext({ sampleRate: 48000 }), source, node;
    try {
      // Some browsers join a microphone only to a context of its own rate.
      try { source = context.createMediaStreamSource(stream); } catch { context.close(); context = new AudioContext(); source = context.createMediaStreamSource(stream); }
      await context.audioWorklet.addModule("/js/microphone-worklet.js");
      node = new AudioWorkletNode(context, "take", { numberOfInputs: 1, numberOfOutputs: 0 });
      source.connect(node);
      await context.resume();
    } catch { stream.getTracks().forEach(track => track.stop()); context.close(); say(box, "This browser cannot record samples."); return; }
    const set = stream.getAudioTracks()[0].getSettings(), on = [["autoGainControl", "automatic gain"], ["echoCancellation", "echo cancelling"], ["noiseSuppression", "noise suppression"]];
    const left = on.filter(([name]) => set[name] !== false).map(([name, words]) => `${words} ${set[name] === true ? "stays on" : "is not told"}`);
    const limits = left.length === 0 ? "Automatic gain, echo cancelling and noise suppression are off." : `Take care: ${left.join(", ")}.`;
    take = { stream, context, pieces, rate: context.sampleRate, timer: setTimeout(() => stop(box), longest * 1000) };
    const own = take, level = part(box, "level");
    let loudest = 0, shown = 0, count = 0;
    node.port.onmessage = message => {
      if (take !== own) return;
      if (!box.isConnected) { end(); return; } // another part of the page is shown
      pieces.push(message.data);
      count += message.data.length;
      for (const sample of message.data) loudest = Math.max(loudest, Math.abs(sample));
      if (count - shown < own.rate / 5) return;
      shown = count;
      level.value = Math.max(-60, 20 * Math.log10(Math.max(loudest, 1e-6)));
      say(box, `${(count / own.rate).toFixed(1)} s, peak ${level.value.toFixed(0)} dB full scale${loudest >= 0.99 ? ", too loud" : ""}. ${limits}`);
      loudest = 0;
    };
    stream.getAudioTracks()[0].onended = () => { if (take === own) stop(box, "The microphone went away. "); };
    show(box, true);
    say(box, `Recording. ${limits}`);
  }
  function stop(box, why = "") {
    if (!take) return;
    const { pieces, rate } = take;
    end();
    show(box, false);
    if (pieces.length === 0) { say(box, `${why}Nothing was recorded.`); return; }
    const name = `tablet-microphone-${new Date().toISOString().slice(0, 19).replace(/[:T]/g, "-")}.wav`;
    say(box, `${why}${name} is sent.`);
    box.dispatchEvent(new CustomEvent("shop-file", { bubbles: true, detail: new File([wave(pieces, rate)], name, { type: "audio/wav" }) }));
  }
  document.addEventListener("click", event => {
    const box = event.target instanceof Element ? event.target.closest("[data-microphone]") : null;
    if (!box) return;
    if (event.target.closest("[data-microphone-start]")) start(box);
    else if (event.target.closest("[data-microphone-stop]")) stop(box);
    else if (event.target.closest("[data-microphone-cancel]")) { end(); show(box, false); say(box, "Thrown away."); }
  });
  // A page that is left records no further.
  window.addEventListener("pagehide", end);
})();
