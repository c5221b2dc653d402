// Dragging in the feed editor, by mouse, pen or finger, in the outline as in the drawing. What was meant becomes a word in the hidden
// field that the component listens to: "move|load|source", "preview|load|source", "select|id", "undo", "redo".
(() => {
  "use strict";
  const Start = 6; // px before a press is a drag
  const Hold = 350; // ms a finger rests before it drags instead of scrolling
  let drag = null;
  let swallow = false;

  const send = (feed, words) => {
    const field = feed.querySelector("[data-feed-value]");
    if (!field) return;
    field.value = words;
    field.dispatchEvent(new Event("change", { bubbles: true }));
  };
  const keyed = target => target instanceof Element ? target.closest('[data-key^="node:"]') : null;
  const idOf = each => each.getAttribute("data-key").slice("node:".length);
  const all = (feed, id) => [...feed.querySelectorAll(`[data-key="${CSS.escape(`node:${id}`)}"]`)];
  const row = (feed, id) => all(feed, id).find(each => each.getAttribute("role") === "treeitem");

  const over = id => {
    if (drag.over === id) return;
    drag.feed.querySelectorAll("[data-over]").forEach(each => each.removeAttribute("data-over"));
    clearTimeout(drag.asking);
    drag.over = id;
    if (!id || id === drag.id) { say(""); return; }
    const takes = row(drag.feed, id)?.hasAttribute("data-takes");
    all(drag.feed, id).forEach(each => each.setAttribute("data-over", takes ? "yes" : "no"));
    say("…");
    const feed = drag.feed, words = `preview|${drag.id}|${id}`;
    drag.asking = setTimeout(() => send(feed, words), 80);
  };
  const say = words => { drag.ghost.lastChild.textContent = words; };

  const begin = () => {
    const { feed, id } = drag;
    clearTimeout(drag.holding);
    drag.on = true;
    drag.ghost = document.createElement("div");
    drag.ghost.className = "feed-ghost";
    drag.ghost.append(document.createElement("strong"), document.createElement("span"));
    drag.ghost.firstChild.textContent = row(feed, id)?.querySelector("[data-name]")?.textContent ?? "";
    feed.append(drag.ghost);
    all(feed, id).forEach(each => each.setAttribute("data-dragged", ""));
    const told = feed.querySelector("[data-feed-preview]");
    if (told) {
      drag.listening = new MutationObserver(() => { if (drag?.over && told.dataset.feedPreview === `${drag.id}|${drag.over}`) say(told.textContent.trim()); });
      drag.listening.observe(told, { subtree: true, childList: true, characterData: true, attributes: true });
    }
    drag.going = setInterval(place, 40); // a list longer than the window goes on scrolling under a finger that rests at its edge
    place();
  };
  const place = () => {
    const { ghost, x, y } = drag;
    const left = Math.max(4, Math.min(x + 14, innerWidth - ghost.offsetWidth - 8));
    const top = y + 18 + ghost.offsetHeight > innerHeight ? y - ghost.offsetHeight - 14 : y + 18;
    ghost.style.transform = `translate(${left}px, ${Math.max(4, top)}px)`;
    for (const box of drag.feed.querySelectorAll("[data-feed-scroll]")) {
      const { left: l, right: r, top: t, bottom: b } = box.getBoundingClientRect();
      if (x < l || x > r || y < t || y > b) continue;
      box.scrollBy(x > r - 40 ? 14 : x < l + 40 ? -14 : 0, y > b - 40 ? 14 : y < t + 40 ? -14 : 0);
    }
    if (y > innerHeight - 48) scrollBy(0, 14); else if (y < 72) scrollBy(0, -14);
    const at = document.elementFromPoint(x, y);
    const found = at && drag.feed.contains(at) ? keyed(at) : null;
    over(found ? idOf(found) : null);
  };
  const end = () => {
    if (!drag) return;
    clearInterval(drag.going);
    clearTimeout(drag.holding);
    clearTimeout(drag.asking);
    drag.listening?.disconnect();
    drag.ghost?.remove();
    drag.feed.querySelectorAll("[data-over],[data-dragged]").forEach(each => { each.removeAttribute("data-over"); each.removeAttribute("data-dragged"); });
    drag = null;
  };

  document.addEventListener("pointerdown", event => {
    swallow = false;
    if (drag) end(); // a second finger ends it
    const found = keyed(event.target);
    const feed = found?.closest("[data-feed]");
    if (!feed || event.button !== 0 || event.target.closest("button, input, select, textarea, a")) return;
    const id = idOf(found);
    if (!row(feed, id)?.hasAttribute("data-moves")) return;
    drag = { feed, id, pointer: event.pointerId, fromX: event.clientX, fromY: event.clientY, x: event.clientX, y: event.clientY, on: false, over: null };
    drag.touch = event.pointerType === "touch" && !event.target.closest("[data-grip]");
    if (drag.touch) drag.holding = setTimeout(() => { if (drag && !drag.on) begin(); }, Hold);
  });
  document.addEventListener("pointermove", event => {
    if (!drag || event.pointerId !== drag.pointer) return;
    [drag.x, drag.y] = [event.clientX, event.clientY];
    if (!drag.on) {
      if (Math.hypot(drag.x - drag.fromX, drag.y - drag.fromY) < Start) return;
      if (drag.touch) { end(); return; } // it scrolls
      begin();
    } else {
      place();
    }
  });
  document.addEventListener("pointerup", event => {
    if (!drag || event.pointerId !== drag.pointer) return;
    const { feed, id, over: target, on } = drag;
    end();
    if (!on) return;
    swallow = true; // the click that follows a drag chooses nothing
    setTimeout(() => { swallow = false; }, 0);
    if (target && target !== id) send(feed, `move|${id}|${target}`);
  });
  document.addEventListener("pointercancel", end);
  // Only a listener that may prevent keeps the page from scrolling under a dragging finger.
  document.addEventListener("touchmove", event => { if (drag && (drag.on || !drag.touch)) event.preventDefault(); }, { passive: false });
  document.addEventListener("contextmenu", event => { if (drag) event.preventDefault(); });

  document.addEventListener("click", event => {
    if (swallow) { event.stopPropagation(); event.preventDefault(); swallow = false; return; }
    const found = keyed(event.target);
    const feed = found?.closest("[data-feed]");
    if (feed && found.closest("svg")) send(feed, `select|${idOf(found)}`);
  }, true);

  const Tree = new Set(["ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight", "Home", "End", " ", "Enter", "Delete", "F2"]);
  document.addEventListener("keydown", event => {
    if (drag && event.key === "Escape") { end(); return; }
    const command = event.ctrlKey || event.metaKey;
    if (event.target instanceof Element && event.target.getAttribute("role") === "treeitem" && event.target.closest("[data-feed]")
      && (command ? ["x", "v"].includes(event.key.toLowerCase()) : Tree.has(event.key)))
      event.preventDefault();
    const feed = document.querySelector("[data-feed]");
    if (!feed || !command || event.altKey || event.repeat || !(event.target instanceof Element)) return;
    if (event.target.closest("input, textarea, select, [contenteditable], [role=dialog]")) return;
    const key = event.key.toLowerCase();
    if (key === "z" || key === "y") {
      event.preventDefault();
      send(feed, key === "y" || event.shiftKey ? "redo" : "undo");
    }
  });

  // Puts the focus into the field that asks something about the chosen line.
  window.feedAsk = chosen => chosen?.querySelector("select, input")?.focus();

  // Brings the chosen node of the drawing into its window, without moving the page.
  window.feedReveal = mark => {
    const view = mark?.closest("[data-feed-scroll]");
    if (!view) return;
    const [box, window] = [mark.getBoundingClientRect(), view.getBoundingClientRect()];
    const by = (from, to, least, most) => from < least ? from - least - 12 : to > most ? Math.min(to - most + 12, from - least - 12) : 0;
    view.scrollBy(by(box.left, box.right, window.left, window.right), by(box.top, box.bottom, window.top, window.bottom));
  };
})();
