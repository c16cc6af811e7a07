/* While a spec is written: wait for the next save, then show the page anew, or what is wrong with the spec. */
(function () {
  "use strict";
  var me = document.currentScript;
  var seen = Number(me.dataset.state);
  var shown = Number(me.dataset.manual);
  var panel;

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

  function ask() {
    fetch("/live?seen=" + seen).then(function (answer) { return answer.json(); }).then(function (state) {
      seen = state.state;
      if (state.manual !== shown) { location.reload(); return; }
      show(state.faults && "The spec has faults; you see the last good manual.", state.faults);
      ask();
    }).catch(function () {
      show("The server does not answer. Start it again; this page then goes on.", "");
      setTimeout(ask, 1000);
    });
  }

  ask();
})();
