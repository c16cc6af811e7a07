/* The bench in three dimensions, in each box of class bm-bench: turned by mouse, touch and keys, pulled apart along the
   proved ways, built again step by step. Its data is a script beside the page, because a page that was opened from a
   folder may fetch nothing. Without WebGL2 the box stays empty, and the drawings of the page stay. */
(function () {
  "use strict";
  const here = document.currentScript.src.replace(/[^/]*$/, "");
  const TRAVEL = 420;           // how far away (mm) a piece begins its way in
  const CORNER = { yaw: -0.65, pitch: 0.5, zoom: 1, pan: [0, 0] };
  const VIEWS = { Corner: CORNER, Front: { yaw: 0, pitch: 0 }, "Right end": { yaw: Math.PI / 2, pitch: 0 }, Above: { yaw: 0, pitch: Math.PI / 2 } };
  const STEP_SECONDS = 0.9;
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  const root = document.documentElement;

  function load(name) {
    return new Promise(function (done, failed) {
      const script = document.createElement("script");
      script.src = here + name;
      script.onload = done;
      script.onerror = failed;
      document.head.append(script);
    });
  }

  function element(name, more, text) {
    const made = Object.assign(document.createElement(name), more);
    if (text !== undefined) made.textContent = text;
    return made;
  }

  function bounded(value, low, high) { return Math.min(high, Math.max(low, value)); }

  // ---- where each piece is: at rest, pulled apart, or on its way in

  function travelled(view, way, left) {
    const offset = [0, 0, 0];
    if (way) offset["xyz".indexOf(way[1])] = (way[0] === "+" ? -1 : 1) * TRAVEL * left * left;
    return offset;
  }

  /* Sets place, reach and fresh of all pieces for `view.time`: the number of steps that are done, and the part of the
     next one; when all are done the bench is finished. */
  function arrange(scene, view) {
    const index = Math.min(scene.steps.length - 1, Math.max(0, Math.ceil(view.time) - 1));
    const done = view.time >= scene.steps.length;
    const step = scene.steps[index], part = view.time - index;
    view.step = done ? null : step;
    view.down = done ? "-z" : step.down;
    scene.pieces.forEach(function (piece, k) {
      const apart = piece.apart.map(function (value) { return value * view.pulled; });
      const move = done || !step.home ? null : piece.moves.find(function (each) { return each.into === step.home; });
      let way = [0, 0, 0], far = [0, 0, 0], shows = done || !step.home, fresh = shows && !done && step.lit.includes(piece.mark);
      if (move && move.step < step.n) shows = true;
      if (move && move.step === step.n) {
        const gone = part * move.count - move.number;
        shows = fresh = gone > 0 || part === 0 && move.number === 0;
        way = travelled(view, move.way, 1 - bounded(gone, 0, 1));
        far = travelled(view, move.way, 1);
      }
      view.place.set([apart[0] + way[0], apart[1] + way[1], apart[2] + way[2], shows ? 1 : 0], 4 * k);
      view.reach.set([apart[0] + far[0], apart[1] + far[1], apart[2] + far[2]], 3 * k);
      view.fresh[k] = fresh;
    });
  }

  // ---- colours: those of the drawings, light or dark as the page is

  function tone(style, name) {
    const text = style.getPropertyValue("--bm-" + name).trim();
    const wide = text.length === 4 ? text.replace(/[0-9a-f]/gi, "$&$&") : text;
    return [1, 3, 5].map(function (i) { return parseInt(wide.slice(i, i + 2), 16) / 255; });
  }

  function paint(canvas, scene, view) {
    const style = getComputedStyle(canvas);
    const tones = {};
    ["bar", "wood", "dark", "tote", "new"].forEach(function (tint) { tones[tint] = tone(style, tint + "-top"); });
    tones.chosen = tone(style, "chosen");
    view.ink = getComputedStyle(canvas).color.match(/\d+/g).slice(0, 3).map(function (each) { return each / 255; });
    view.hollow = tone(style, "slot");
    view.through = view.chosen.size > 0;
    scene.pieces.forEach(function (piece, k) {
      const chosen = view.chosen.has(k);
      const colour = chosen ? tones.chosen : view.fresh[k] ? tones.new : tones[piece.tint];
      view.colours[k] = colour.concat(chosen ? 2 : 1);
      view.bold[k] = view.through ? chosen : view.fresh[k];
    });
  }

  // ---- the box: canvas, buttons, sliders, and what is said of a piece

  function opened(rows) {
    const homes = rows.homes;
    return {
      coordinates: rows.coordinates, meshes: rows.meshes, wide: rows.wide,
      pieces: rows.pieces.map(function (row) {
        return {
          mark: row[0], name: row[1], tint: row[2], size: row[3], other: row[4], sheet: row[5], mesh: row[6], low: row[7], apart: row[8],
          moves: row[9].map(function (each) { return { step: each[0], number: each[1], count: each[2], way: each[3], into: homes[each[4]] }; }),
          holes: row[10] || []
        };
      }),
      steps: rows.steps.map(function (row) {
        return { n: row[0], key: row[1], title: row[2], home: homes[row[3]], down: row[4], lit: row[5] };
      })
    };
  }

  function build(box) {
    const parts = {
      canvas: element("canvas", { className: "bm-drawing", tabIndex: 0 }),
      views: element("div", { className: "bm-bench-views" }),
      pull: element("input", { type: "range", min: 0, max: 1, step: 0.01, value: 0 }),
      step: element("input", { type: "range", min: 0, step: 0.02 }),
      before: element("button", { type: "button" }, "◀"),
      after: element("button", { type: "button" }, "▶"),
      title: element("output"),
      piece: element("select"),
      told: element("p", { className: "bm-bench-told" })
    };
    parts.canvas.setAttribute("role", "application");
    parts.canvas.setAttribute("aria-label", "The bench in three dimensions. Arrow keys turn it, + and − zoom, Home turns it back, Escape puts a part out.");
    parts.before.setAttribute("aria-label", "Step before");
    parts.after.setAttribute("aria-label", "Next step");
    parts.told.setAttribute("aria-live", "polite");
    const labelled = function (name, inner) {
      const label = element("label", {}, name + " ");
      label.append(inner);
      return label;
    };
    const rows = [1, 2, 3].map(function () { return element("div", { className: "bm-bench-row" }); });
    rows[0].append(parts.views, labelled("Pull apart", parts.pull));
    rows[1].append(labelled("Step", parts.step), parts.before, parts.after);
    rows[2].append(parts.title, labelled("Part", parts.piece));
    box.replaceChildren(parts.canvas, rows[0], rows[1], rows[2], parts.told);
    box.hidden = false;
    return parts;
  }

  function start(box, rows) {
    const scene = opened(rows), count = scene.pieces.length, all = scene.steps.length;
    const view = Object.assign({}, CORNER, {
      pulled: 0, time: all, chosen: new Set(), colours: new Array(count), bold: new Array(count), fresh: new Array(count),
      place: new Float32Array(4 * count), reach: new Float32Array(3 * count)
    });
    const parts = build(box);
    const solids = benchSolids(parts.canvas, scene);
    if (!solids) { box.replaceChildren(); box.hidden = true; return null; }
    const marks = new Map(scene.pieces.map(function (piece, k) { return [piece.mark, k]; }));

    let asked = false;
    function redraw() {
      if (asked) return;
      asked = true;
      requestAnimationFrame(function () {
        asked = false;
        if (!box.isConnected) return;
        arrange(scene, view);
        paint(parts.canvas, scene, view);
        solids.draw(view);
      });
    }

    // what a step or a piece is, in words

    function tellStep() {
      arrange(scene, view);
      const step = view.step;
      const text = step ? "Step " + step.n + " of " + all + ": " + step.title : "The finished bench";
      parts.title.replaceChildren(step ? element("a", { href: "assembly.html#step-" + step.key }, text) : text);
      parts.step.value = view.time;
      parts.step.setAttribute("aria-valuetext", text);
      parts.before.disabled = view.time <= 0;
      parts.after.disabled = view.time >= all;
    }

    function tellPieces() {
      const chosen = Array.from(view.chosen, function (k) { return scene.pieces[k]; });
      const piece = chosen[0];
      parts.piece.value = chosen.length === 1 ? piece.mark : "";
      parts.told.replaceChildren();
      if (!piece) { parts.told.textContent = "Click a part, or a mark on this page."; return; }
      const switched = root.classList.contains("bm-other");
      const size = element("span", {}, switched ? piece.other : piece.size);
      size.dataset.o = switched ? piece.size : piece.other;
      const names = chosen.map(function (each) { return each.mark; });
      parts.told.append(element("b", {}, names.length > 6 ? names.slice(0, 5).join(", ") + " …" : names.join(", ")), " " + piece.name + " ", size);
      if (piece.sheet) parts.told.append(" · ", element("a", { href: piece.sheet }, "part sheet"));
      const first = piece.moves[0], step = first && scene.steps.find(function (each) { return each.n === first.step; });
      if (step) parts.told.append(" · ", element("a", { href: "assembly.html#step-" + step.key }, "step " + step.n));
    }

    function choose(found) {
      view.chosen = new Set(found);
      // what is not there yet cannot light up: then the finished bench is shown
      if (found.some(function (k) { return !view.place[4 * k + 3]; })) show(all);
      tellPieces();
      redraw();
    }

    function show(time) {
      view.time = bounded(time, 0, all);
      tellStep();
      redraw();
    }

    let running = 0;
    function run(to) {
      cancelAnimationFrame(running);
      const from = view.time, began = performance.now();
      if (calm.matches || Math.abs(to - from) > 1.01) { show(to); return; }
      const next = function (now) {
        const part = Math.min(1, (now - began) / 1000 / STEP_SECONDS);
        show(from + (to - from) * part);
        if (part < 1 && box.isConnected) running = requestAnimationFrame(next);
      };
      running = requestAnimationFrame(next);
    }

    // ---- mouse and touch: one finger turns, two zoom and move; a finger that goes up or down scrolls the page

    const points = new Map();
    let moved = 0, gap = 0;
    function zoom(by) { view.zoom = bounded(view.zoom * by, 0.4, 20); redraw(); }
    function turn(dx, dy) {
      view.yaw += dx;
      view.pitch = bounded(view.pitch + dy, -Math.PI / 2, Math.PI / 2);
      redraw();
    }
    parts.canvas.addEventListener("pointerdown", function (event) {
      parts.canvas.setPointerCapture(event.pointerId);
      points.set(event.pointerId, [event.clientX, event.clientY]);
      moved = gap = 0;
    });
    parts.canvas.addEventListener("pointermove", function (event) {
      const was = points.get(event.pointerId);
      if (!was) return;
      const dx = event.clientX - was[0], dy = event.clientY - was[1];
      points.set(event.pointerId, [event.clientX, event.clientY]);
      moved += Math.abs(dx) + Math.abs(dy);
      if (points.size === 2) {
        const ends = Array.from(points.values()), wide = Math.hypot(ends[0][0] - ends[1][0], ends[0][1] - ends[1][1]);
        view.pan = [view.pan[0] + dx / 2, view.pan[1] + dy / 2];
        zoom(gap ? wide / gap : 1);
        gap = wide;
      } else if (event.shiftKey || event.buttons & 6) { view.pan = [view.pan[0] + dx, view.pan[1] + dy]; redraw(); }
      else turn(-dx * 0.008, dy * 0.008);
    });
    parts.canvas.addEventListener("pointerup", function (event) {
      if (!points.delete(event.pointerId) || moved > 5) return;
      const frame = parts.canvas.getBoundingClientRect();
      const found = solids.pick(event.clientX - frame.left, event.clientY - frame.top, view);
      choose(found < 0 ? [] : [found]);
    });
    parts.canvas.addEventListener("pointercancel", function (event) { points.delete(event.pointerId); });
    parts.canvas.addEventListener("contextmenu", function (event) { event.preventDefault(); });
    // a wheel scrolls the page until the bench was touched
    parts.canvas.addEventListener("wheel", function (event) {
      if (document.activeElement !== parts.canvas && !event.ctrlKey) return;
      event.preventDefault();
      zoom(Math.exp(-event.deltaY * 0.001));
    }, { passive: false });

    // ---- keys and buttons

    const KEYS = {
      ArrowLeft: function () { turn(-0.1, 0); }, ArrowRight: function () { turn(0.1, 0); },
      ArrowUp: function () { turn(0, 0.1); }, ArrowDown: function () { turn(0, -0.1); },
      "+": function () { zoom(1.2); }, "-": function () { zoom(1 / 1.2); },
      Home: function () { Object.assign(view, CORNER); redraw(); }, Escape: function () { choose([]); }
    };
    parts.canvas.addEventListener("keydown", function (event) {
      if (!KEYS[event.key] || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      KEYS[event.key]();
    });
    function button(text, label, press) {
      const made = element("button", { type: "button" }, text);
      if (label) made.setAttribute("aria-label", label);
      made.addEventListener("click", press);
      parts.views.append(made);
    }
    Object.keys(VIEWS).forEach(function (name) { button(name, "", function () { Object.assign(view, { pan: [0, 0] }, VIEWS[name]); redraw(); }); });
    button("−", "Zoom out", KEYS["-"]);
    button("+", "Zoom in", KEYS["+"]);
    parts.pull.addEventListener("input", function () { view.pulled = Number(parts.pull.value); redraw(); });
    parts.step.max = all;
    parts.step.addEventListener("input", function () { cancelAnimationFrame(running); show(Number(parts.step.value)); });
    parts.step.addEventListener("keydown", function (event) {
      const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
      if (!by) return;
      event.preventDefault();
      stepBy(by);
    });
    function stepBy(by) { run(by > 0 ? Math.floor(view.time) + 1 : Math.ceil(view.time) - 1); }
    parts.before.addEventListener("click", function () { stepBy(-1); });
    parts.after.addEventListener("click", function () { stepBy(1); });
    parts.piece.append(element("option", { value: "" }, "choose a part"));
    scene.pieces.forEach(function (piece) {
      parts.piece.append(element("option", { value: piece.mark }, piece.mark + (piece.name ? " · " + piece.name : "")));
    });
    parts.piece.addEventListener("change", function () { choose(parts.piece.value ? [marks.get(parts.piece.value)] : []); });

    parts.canvas.addEventListener("webglcontextlost", function () { box.hidden = true; root.classList.remove("bm-turns"); });
    new ResizeObserver(redraw).observe(parts.canvas);
    new MutationObserver(redraw).observe(document.body, { attributes: true, attributeFilter: ["data-md-color-scheme"] });

    tellStep();
    tellPieces();
    redraw();
    return {
      box: box, view: view, scene: scene, marks: marks, parts: parts, choose: choose, show: show, run: run,
      where: function (mark) { return solids.where(marks.get(mark), view); }
    };
  }

  // ---- the page round the box: its marks light parts up, its steps can be watched

  /* The pieces of a mark on the page, which may be a run: C1–C3. */
  function meant(marks, text) {
    const ends = text.trim().split("–"), first = /^(.*?)(\d+)$/.exec(ends[0]), last = /(\d+)$/.exec(ends[1] || "");
    if (!first || !last) return marks.has(text.trim()) ? [marks.get(text.trim())] : [];
    const found = [];
    for (let n = Number(first[2]); n <= Number(last[1]); n++) if (marks.has(first[1] + n)) found.push(marks.get(first[1] + n));
    return found;
  }

  function offerSteps(bench) {
    bench.scene.steps.forEach(function (step, index) {
      const head = document.getElementById("step-" + step.key);
      if (!head || !bench.scene.pieces.some(function (piece) { return piece.moves.some(function (move) { return move.step === step.n; }); })) return;
      const watch = element("button", { type: "button", className: "bm-watch" }, "Watch this step");
      watch.addEventListener("click", function () {
        watch.after(bench.box);
        bench.choose([]);
        bench.show(index);
        bench.run(index + 1);
        bench.box.scrollIntoView({ block: "nearest" });
      });
      head.after(watch);
    });
  }

  let bench = null;
  document.addEventListener("click", function (event) {
    const mark = event.target.closest && event.target.closest("article .bm-mark");
    if (!bench || !mark || event.ctrlKey || event.metaKey || event.shiftKey) return;
    const found = meant(bench.marks, mark.textContent);
    if (!found.length) return;
    event.preventDefault();
    bench.choose(found);
    bench.box.scrollIntoView({ block: "nearest" });
  });

  function begin(again) {
    const box = document.querySelector(".bm-bench");
    bench = null;
    if (!box || !window.WebGL2RenderingContext) return;
    const scripts = window.benchSolids ? [load("bench.js?" + again)] : [load("solids.js"), load("bench.js")];
    Promise.all(scripts).then(function () {
      bench = start(box, window.benchScene);
      if (!bench) return;
      root.classList.add("bm-turns");
      offerSteps(bench);
      const asked = new URLSearchParams(location.search).get("part");
      if (asked) bench.choose(asked.split(",").flatMap(function (mark) { return meant(bench.marks, mark); }));
    }).catch(function () { box.hidden = true; });
  }
  let renewed = 0;
  document.addEventListener("bm-renewed", function () { begin(++renewed); });
  begin(0);
})();
