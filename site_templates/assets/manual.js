/* A manual's checklists: ticks are kept on this device. Works from file://, where all manuals share one store:
   hence the manual's id in every key. Item ids are stable names, so ticks survive a reordered list. */
(function () {
  "use strict";
  var meta = document.querySelector('meta[name="bench-manual"]');
  var boxes = [];
  var kept = true;
  var count;

  function stored(action) {
    try { return action(localStorage); } catch (error) { kept = false; return null; }
  }

  function key(box) { return "bench-manual/" + (meta ? meta.content : location.pathname) + "/" + box.dataset.bm; }

  function save(box) {
    stored(function (store) {
      if (box.checked) store.setItem(key(box), "1"); else store.removeItem(key(box));
    });
  }

  function restore() {
    boxes.forEach(function (box) {
      var value = stored(function (store) { return store.getItem(key(box)); });
      if (kept) box.checked = value === "1";
    });
    show();
  }

  // What is ticked is marked in the menu too, where it lists the steps of this page.
  function markMenu() {
    boxes.forEach(function (box) {
      var step = /^(.*)\/done$/.exec(box.dataset.bm);
      var link = step && document.querySelector('.md-nav--secondary a[href="#step-' + CSS.escape(step[1]) + '"]');
      if (link) link.classList.toggle("bm-done", box.checked);
    });
  }

  function show() {
    markMenu();
    if (!count) return;
    var done = boxes.filter(function (box) { return box.checked; }).length;
    count.textContent = done + " of " + boxes.length + " done" +
      (kept ? "" : ". This device does not keep ticks: note them on paper.");
  }

  // A printed list is a record: it says when it was printed.
  function date(print) {
    if (count && print) count.textContent += ", printed " + new Date().toLocaleDateString("sv");
    else show();
  }
  window.addEventListener("beforeprint", function () { date(true); });
  window.addEventListener("afterprint", function () { date(false); });

  function addBar(list) {
    document.querySelectorAll(".bm-progress").forEach(function (old) { old.remove(); });
    var bar = document.createElement("div");
    var button = document.createElement("button");
    count = document.createElement("output");
    bar.className = "bm-progress";
    button.type = "button";
    button.textContent = "Clear the ticks of this page";
    button.addEventListener("click", function () {
      if (!confirm("Clear all ticks of this page?")) return;
      boxes.forEach(function (box) { box.checked = false; save(box); });
      show();
    });
    bar.append(count, button);
    list.before(bar);
  }

  // Browsers that print boxes in the margins keep their rules; the others drop what they do not know.
  var probe = document.createElement("style");
  probe.textContent = "@page { @top-left { content: '' } }";
  document.head.append(probe);
  var rules = probe.sheet && probe.sheet.cssRules[0] && probe.sheet.cssRules[0].cssRules;
  if (rules && rules.length) document.documentElement.classList.add("bm-margins");
  probe.remove();

  document.querySelectorAll("[role=dialog]:not([aria-label])").forEach(function (dialog) {
    dialog.setAttribute("aria-label", "Search");
  });

  // A box that scrolls must be reachable by keyboard; the theme makes the boxes round wide tables.
  function reachBoxes() {
    document.querySelectorAll("article table, article figure svg").forEach(function (wide) {
      for (var box = wide.parentElement; box && box.tagName !== "ARTICLE"; box = box.parentElement) {
        if (box.scrollWidth > box.clientWidth) box.tabIndex = 0;
      }
    });
  }
  window.addEventListener("load", reachBoxes);
  window.addEventListener("resize", reachBoxes);
  // larger type, or what is opened, makes boxes scroll that did not
  if (window.ResizeObserver) new ResizeObserver(reachBoxes).observe(document.querySelector("article") || document.body);

  // The menu marks the section that is being read, and keeps it in sight.
  var HEAD = 140;  // px: what has come up to here is being read
  var asked = false;
  function follow() {
    asked = false;
    var links = Array.from(document.querySelectorAll(".md-nav--secondary a[href^='#']"));
    var here = null;
    links.forEach(function (link) {
      var place = document.getElementById(decodeURIComponent(link.hash.slice(1)));
      if (place && place.getBoundingClientRect().top < HEAD) here = link;
      link.classList.remove("bm-here");
    });
    if (!here) return;
    here.classList.add("bm-here");
    var box = here.closest(".md-sidebar__scrollwrap");
    if (!box || !here.offsetParent) return;
    var frame = box.getBoundingClientRect();
    var at = here.getBoundingClientRect();
    if (at.top < frame.top + 40 || at.bottom > frame.bottom - 20) box.scrollTop += at.top - (frame.top + frame.bottom) / 2;
  }
  window.addEventListener("scroll", function () {
    if (!asked) { asked = true; requestAnimationFrame(follow); }
  }, { passive: true });
  window.addEventListener("load", follow);

  function begin() {
    var first = document.querySelector(".bm-tally") || document.querySelector("ul.bm-checklist");
    boxes = Array.from(document.querySelectorAll("input[data-bm]"));
    count = null;
    if (first) addBar(first);
    restore();
  }
  document.addEventListener("change", function (event) {
    if (!event.target.matches("input[data-bm]")) return;
    save(event.target);
    restore();  // an item may stand twice on a page
  });
  window.addEventListener("storage", restore);
  window.addEventListener("pageshow", restore);
  document.addEventListener("bm-renewed", function () { begin(); reachBoxes(); follow(); });
  begin();
})();
