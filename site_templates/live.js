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
    });
  }

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

  ask();
})();
