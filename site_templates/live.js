/* While a spec is written: wait for the next save, then show the page anew, or what is wrong with the spec. */
(function () {
  "use strict";
  var me = document.currentScript;
  var seen = Number(me.dataset.state);
  var shown = Number(me.dataset.manual);
  var panel;

  // What a page says of its manual. The frame round it stays, and with it the reader's place on the page.
  var MANUAL = 'meta[name="bench-manual"]';
  var CHANGING = [".md-header__topic .md-ellipsis", ".md-nav--primary > .md-nav__title", ".md-nav--secondary", "article"];

  function show(heading, text) {
    if (!text && !heading) { if (panel) panel.remove(); panel = null; return; }
    if (!panel) {
      panel = document.createElement("section");
      panel.id = "bm-faults";
      panel.setAttribute("role", "alert");
      panel.style.cssText = "position:fixed;z-index:99;left:0;right:0;bottom:0;max-height:50vh;overflow:auto;" +
        "padding:.8rem 1rem;background:#fff7e6;color:#1d262c;border-top:.25rem solid #9d1218;font:16px/1.4 sans-serif";
      panel.append(document.createElement("strong"), document.createElement("pre"));
      panel.lastChild.style.cssText = "white-space:pre-wrap;margin:.5rem 0 0;font:14px/1.45 monospace";
      document.body.append(panel);
    }
    panel.firstChild.textContent = heading;
    panel.lastChild.textContent = text;
  }

  function renew() {
    return fetch(location.pathname).then(function (answer) {
      if (!answer.ok) throw new Error(answer.status);
      return answer.text();
    }).then(function (text) {
      var page = new DOMParser().parseFromString(text, "text/html");
      return drawnFirst(page);
    }).then(function (page) {
      var own = page.querySelector("script[data-manual]");
      if (page.querySelector(MANUAL).dataset.unit !== document.querySelector(MANUAL).dataset.unit) throw new Error();
      document.title = page.title;
      document.querySelector(MANUAL).content = page.querySelector(MANUAL).content;
      CHANGING.forEach(function (part) {
        var old = document.querySelector(part);
        var fresh = page.querySelector(part);
        if (old && fresh) old.replaceChildren.apply(old, Array.from(fresh.childNodes));
      });
      document.querySelectorAll("article table:not([class])").forEach(boxed);
      var paper = document.querySelector('link[href*="paper.css"]');
      if (paper) paper.href = paper.href.split("?")[0] + "?" + own.dataset.manual;
      shown = Number(own.dataset.manual);
      document.dispatchEvent(new Event("bm-renewed"));
      watchBoxes();
    });
  }

  // ---- Pictures that are drawn when they come into sight ----

  // Where a picture of a manual is to be had.
  function place(manual, name) { return "pictures/" + manual + "/" + encodeURIComponent(name); }

  // A picture and its slim one into the boxes that wait for them.
  function put(text, page) {
    var holder = document.createElement("template");
    holder.innerHTML = text;
    Array.from(holder.content.children).forEach(function (picture) {
      var box = page.getElementById(picture.id);
      if (!box || !box.dataset.awaited) return;
      if (page === document && document.documentElement.classList.contains("bm-other")) {
        picture.querySelectorAll("[data-o]").forEach(function (length) {
          var own = length.textContent;
          length.textContent = length.dataset.o;
          length.dataset.o = own;
        });
      }
      var figure = box.closest(".bm-scroll") && box.closest("figure");
      if (figure) figure.classList.toggle("bm-lying", picture.viewBox.baseVal.width > Number(box.dataset.page));
      box.replaceWith(picture);
    });
  }

  function draw(manual, name, page) {
    return fetch(place(manual, name)).then(function (answer) {
      if (answer.status === 409) return;  // a later save: the page is renewed in a moment
      if (!answer.ok) throw new Error(answer.status);
      return answer.text().then(function (text) {
        if (page !== document || manual === shown) put(text, page);
      });
    }).catch(function () {
      page.querySelectorAll("[data-awaited]").forEach(function (box) {
        if (box.dataset.awaited === name) box.replaceWith("This picture could not be drawn. Load the page again.");
      });
    });
  }

  // What the reader looks at is drawn before the page changes, so that nothing flickers.
  function drawnFirst(page) {
    var manual = Number(page.querySelector("script[data-manual]").dataset.manual);
    var seen = Array.from(page.querySelectorAll("[data-awaited]")).filter(function (box) {
      var old = document.getElementById(box.id);
      var at = old && old.getBoundingClientRect();
      return at && at.width && at.bottom > 0 && at.top < window.innerHeight;
    });
    return Promise.all(seen.map(function (box) {
      return draw(manual, box.dataset.awaited, page);
    })).then(function () { return page; });
  }

  // The others as they come near: from a screen above to a screen below.
  var near = new IntersectionObserver(function (entries) {
    entries.forEach(function (entry) {
      if (!entry.isIntersecting) return;
      near.unobserve(entry.target);
      draw(shown, entry.target.dataset.awaited, document);
    });
  }, { rootMargin: "100% 0px" });

  function watchBoxes() {
    near.disconnect();
    document.querySelectorAll("[data-awaited]").forEach(function (box) { near.observe(box); });
  }

  // A print has all of them, and cannot wait for what comes later.
  window.addEventListener("beforeprint", function () {
    document.querySelectorAll(".bm-scroll > [data-awaited]").forEach(function (box) {
      var asked = new XMLHttpRequest();
      asked.open("GET", place(shown, box.dataset.awaited), false);
      asked.send();
      if (asked.status === 200) put(asked.responseText, document);
    });
  });

  // A wide table scrolls in a box of its own, as the theme's script has it.
  function boxed(table) {
    ["md-typeset__table", "md-typeset__scrollwrap"].reduce(function (inner, name) {
      var box = document.createElement("div");
      box.className = name;
      inner.replaceWith(box);
      box.append(inner);
      return box;
    }, table);
  }

  function ask() {
    fetch("/live?seen=" + seen).then(function (answer) { return answer.json(); }).then(function (state) {
      seen = state.state;
      show(state.faults && "The spec has faults. This is the last good manual.", state.faults);
      if (state.manual === shown) { ask(); return; }
      return renew().then(ask, function () { location.reload(); });
    }).catch(function () {
      show("The server does not answer. Start it again, and this page continues.", "");
      setTimeout(ask, 1000);
    });
  }

  watchBoxes();
  ask();
})();
