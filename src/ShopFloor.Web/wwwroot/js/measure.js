// The number pad of a measured value and its verdict. Works without the circuit and without the server: limits stand in the page.
(() => {
  "use strict";
  // As the server reads it: what could be a thousand as well as a decimal is not judged here.
  const read = text => /^\s*\d+([.,]\d*)?\s*(V|mA)?\s*$/.test(text) && !/^\s*[1-9]\d{0,2},\d{3}\s*(V|mA)?\s*$/.test(text) ? Number.parseFloat(text.replace(",", ".")) : NaN;
  // With the decimal sign of the row beside it, which the server wrote.
  const write = (row, value) => {
    const { unit, decimal } = row.dataset, shown = unit === "V" ? value.toFixed(2) : String(Math.round(value * 10) / 10);
    return `${shown.replace(".", decimal || ".")}\u00a0${unit}`;
  };
  const limit = text => text === undefined || text === "" ? NaN : Number(text);

  function verdict(row, value) {
    const lowest = limit(row.dataset.lowest), highest = limit(row.dataset.highest);
    if (value < lowest) return { kind: "outside", words: `${write(row, lowest - value)} too low` };
    if (value > highest) return { kind: "outside", words: `${write(row, value - highest)} too high` };
    return { kind: "within", words: "within limits" };
  }

  function say(row, kind, words) {
    const says = row.querySelector("[data-measure-says]");
    if (!says) return;
    says.textContent = words;
    if (kind) says.dataset.verdict = kind; else delete says.dataset.verdict;
  }

  function judge(row) {
    const value = read(row.querySelector("[data-measure-field]").value);
    if (Number.isNaN(value)) return say(row, "", "");
    const found = verdict(row, value);
    say(row, found.kind, `${write(row, value)}: ${found.words}`);
  }

  document.addEventListener("input", event => {
    if (event.target.matches("[data-measure-field]")) judge(event.target.closest("[data-measure]"));
  });

  document.addEventListener("keydown", event => {
    if (event.key === "Enter" && event.target.matches("[data-measure-field]")) event.target.closest("[data-measure]").querySelector('[data-outbox-url$="/measure"]').click();
  });

  document.addEventListener("click", event => {
    const key = event.target.closest("[data-measure-key]");
    if (key) {
      const field = key.closest("[data-measure]").querySelector("[data-measure-field]");
      field.value = key.dataset.measureKey === "back" ? field.value.slice(0, -1) : field.value + key.dataset.measureKey;
      field.dispatchEvent(new Event("input", { bubbles: true }));
      return;
    }
    const opened = event.target.closest("[data-measure] details > summary");
    if (opened) return void setTimeout(() => { const field = opened.parentElement.querySelector("[data-measure-field]"); if (opened.parentElement.open) field?.focus(); });
    const sent = event.target.closest('[data-measure] [data-outbox-url$="/measure"]');
    if (sent?.dataset.outboxState !== "waiting") return;
    // The outbox has it; what it reads stays in sight until the page shows it.
    const row = sent.closest("[data-measure]"), field = row.querySelector("[data-measure-field]"), value = read(field.value);
    if (Number.isNaN(value)) return;
    const found = verdict(row, value);
    say(row, found.kind, `Kept: ${write(row, value)}, ${found.words}`);
    field.value = "";
    const pad = row.querySelector("details.measure-entry");
    if (pad) { pad.open = false; pad.querySelector("summary").focus(); }
  });

  document.addEventListener("shop-outbox-sent", event => {
    if (!event.detail.url.endsWith("/measure")) return;
    for (const row of document.querySelectorAll("[data-measure]")) {
      const button = row.querySelector('[data-outbox-url$="/measure"]');
      if (button && JSON.parse(button.dataset.outboxBody).pointId === event.detail.body.pointId && !row.querySelector("[data-measure-field]").value) say(row, "", "");
    }
  });
})();
