/* Two switches in the head of every page: the unit of all lengths, in text and drawings, and large type for a tablet
   that stands beside the saw. The unit is kept for this manual, the type for this device. Each length carries its
   other reading in data-o; without this script the spec's own unit shows. */
(function () {
  "use strict";
  var root = document.documentElement;
  var meta = document.querySelector('meta[name="bench-manual"]');
  var header = document.querySelector(".md-header__inner");
  if (!meta || !header) return;
  var own = meta.dataset.unit;
  var other = own === "mm" ? "in" : "mm";
  var words = { mm: "millimetres", in: "inches" };
  var typeKey = "bench-manual/large-type";
  var shown = own;

  function stored(key) {
    try { return localStorage.getItem(key); } catch (error) { return null; }
  }

  function store(key, value) {
    try { localStorage.setItem(key, value); } catch (error) { /* the switch then holds for this page only */ }
  }

  function unitKey() { return "bench-manual/" + meta.content + "/unit"; }

  function button(name, press) {
    var made = document.createElement("button");
    made.type = "button";
    made.className = "bm-switch bm-switch-" + name;
    made.addEventListener("click", press);
    header.insertBefore(made, header.querySelector("[data-md-component=palette]"));
    return made;
  }

  function readings() {
    document.querySelectorAll("[data-o]").forEach(function (length) {
      var text = length.textContent;
      length.textContent = length.dataset.o;
      length.dataset.o = text;
    });
    // beside a length that is wider or narrower now, what follows it moves
    document.querySelectorAll("[data-t]").forEach(function (beside) {
      var place = beside.getAttribute("transform") || "";
      beside.setAttribute("transform", beside.dataset.t);
      beside.dataset.t = place;
    });
  }

  function showUnit(unit) {
    if (unit !== shown) readings();
    shown = unit;
    root.classList.toggle("bm-other", unit !== own);
    unitButton.innerHTML = ["mm", "in"].map(function (each) {
      return each === unit ? "<b>" + each + "</b>" : each;
    }).join(" / ");
    unitButton.setAttribute("aria-label", "mm / in: lengths are in " + words[unit] + ", switch");
    unitButton.title = "Lengths in " + words[unit === own ? other : own];
  }

  function showType(large) {
    root.classList.toggle("bm-large", large);
    typeButton.setAttribute("aria-pressed", String(large));
  }

  function restore() {
    showUnit(stored(unitKey()) === other ? other : own);
    showType(stored(typeKey) === "yes");
  }

  var unitButton = button("unit", function () {
    showUnit(shown === own ? other : own);
    store(unitKey(), shown);
  });
  var typeButton = button("type", function () {
    showType(!root.classList.contains("bm-large"));
    store(typeKey, root.classList.contains("bm-large") ? "yes" : "no");
  });
  typeButton.textContent = "Aa";
  typeButton.title = "Large type";
  typeButton.setAttribute("aria-label", "Aa: large type");

  window.addEventListener("storage", restore);
  window.addEventListener("pageshow", restore);
  document.addEventListener("bm-renewed", function () {
    var chosen = shown;
    shown = own;  // a page comes in the unit of its spec
    showUnit(chosen);
  });
  restore();
})();
