// The bay and the board where they must answer without the server: photos still on their way, and keys between rows.
(() => {
  "use strict";

  // A tick that needs a photo may go ahead of it: the server is told that one is coming and lets the tick wait for it.
  document.addEventListener("shop-photo-queued", event => {
    const stepId = event.detail.fields?.subjectId;
    if (!stepId) return;
    for (const field of document.querySelectorAll(`input[data-photo-step="${CSS.escape(stepId)}"]`)) field.value = "true";
    for (const words of document.querySelectorAll(`[data-photo-words="${CSS.escape(stepId)}"]`)) words.hidden = false;
  });
  document.addEventListener("shop-photo-uploaded", event => {
    const stepId = event.detail.fields?.subjectId;
    for (const words of stepId ? document.querySelectorAll(`[data-photo-words="${CSS.escape(stepId)}"]`) : []) words.hidden = true;
  });

  // Up and down move between rows that carry data-key-row; Enter is the link's own.
  document.addEventListener("keydown", event => {
    if (!["ArrowDown", "ArrowUp", "Home", "End"].includes(event.key) || event.ctrlKey || event.metaKey || event.altKey) return;
    const list = document.querySelector("[data-key-rows]");
    if (!list || document.querySelector("dialog[open], .mud-dialog")) return;
    const rows = [...list.querySelectorAll("[data-key-row]")];
    const inside = rows.indexOf(document.activeElement);
    const typing = event.target.closest?.("input, textarea, select, [contenteditable]");
    // Down from the search field goes into the list; elsewhere in a field the keys are the field's.
    if (rows.length === 0 || (typing && !(event.key === "ArrowDown" && typing.matches("[data-key-into-rows]")))) return;
    if (inside < 0 && !typing && document.activeElement !== document.body && !list.contains(document.activeElement) && document.activeElement?.tagName !== "H1") return;
    const next = event.key === "Home" ? 0 : event.key === "End" ? rows.length - 1
      : inside < 0 ? 0 : Math.min(rows.length - 1, Math.max(0, inside + (event.key === "ArrowDown" ? 1 : -1)));
    event.preventDefault();
    rows[next].focus();
  });
})();
