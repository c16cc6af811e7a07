/* Draws the bench in three dimensions with WebGL2: all faces in at most three calls, all round holes in one, all thin
   edges in one. A piece's place and colour come from a texture with a column for each piece, so that nothing else
   changes while it moves. */
function benchSolids(canvas, scene) {
  "use strict";
  const gl = canvas.getContext("webgl2", { antialias: true });
  if (!gl) return null;

  const LIP_SCALE = 0.5;        // pixels a millimetre: from afar the lips of slots would only be black
  const GLASS = 0.6;            // how dense a chosen piece is where another is before it
  const BIAS = 0.0006;          // edges come before the faces that they bound
  const CORNERS_OF_HOLE = 16;
  const count = scene.pieces.length;

  // ---- the surfaces, once for each piece

  function numbers(text) {
    const bytes = Uint8Array.from(atob(text), function (sign) { return sign.charCodeAt(0); });
    return scene.wide ? new Uint32Array(bytes.buffer) : new Uint16Array(bytes.buffer);
  }
  const meshes = scene.meshes.map(function (each) { return each.map(numbers); });
  const faces = [], edges = [], boxes = [], rims = { points: [], owners: [] };

  scene.pieces.forEach(function (piece, index) {
    const at = function (axis, number) { return scene.coordinates[number] + piece.low[axis]; };
    const box = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
    const mesh = meshes[piece.mesh];
    for (let k = 0; k < mesh[0].length; k += 6) {
      const way = mesh[0][k + 5], axis = way >> 1, low = [0, 1, 2].map(function (i) { return at(i, mesh[0][k + i]); });
      const high = low.slice();
      [0, 1, 2].filter(function (i) { return i !== axis; }).forEach(function (i, n) { high[i] = at(i, mesh[0][k + 3 + n]); });
      faces.push({ low: low, high: high, way: way, piece: index });
      low.forEach(function (value, i) { box[i] = Math.min(box[i], value); box[i + 3] = Math.max(box[i + 3], high[i]); });
    }
    boxes.push(box);
    for (let k = 0; k < mesh[1].length; k += 5) {
      const axis = mesh[1][k + 4], start = [0, 1, 2].map(function (i) { return at(i, mesh[1][k + i]); }), end = start.slice();
      end[axis] = at(axis, mesh[1][k + 3]);
      const outside = [0, 1, 2].filter(function (i) {
        return i !== axis && (Math.abs(start[i] - box[i]) < 0.01 || Math.abs(start[i] - box[i + 3]) < 0.01);
      }).length;
      edges.push({ start: start, end: end, piece: index, lip: piece.tint === "bar" && outside < 2 });
    }
    // a round hole is a dark disc in both faces that it goes through; on the seam of two boards it ends there
    const within = function (value, axis) { return Math.min(Math.max(value, box[axis]), box[axis + 3]); };
    for (let k = 0; k < piece.holes.length; k += 3) {
      const x = piece.holes[k] + piece.low[0], y = piece.holes[k + 1] + piece.low[1], r = piece.holes[k + 2] / 2;
      const rim = function (n) { const a = 2 * Math.PI * n / CORNERS_OF_HOLE; return [within(x + r * Math.cos(a), 0), within(y + r * Math.sin(a), 1)]; };
      [box[2], box[5]].forEach(function (z) {
        for (let n = 2; n < CORNERS_OF_HOLE; n++) {
          [rim(0), rim(n - 1), rim(n)].forEach(function (at) { rims.points.push(at[0], at[1], z); rims.owners.push(index); });
        }
      });
    }
  });
  // faces by their direction: of six only the three that look at the eye are drawn; lips come last
  faces.sort(function (a, b) { return a.way - b.way; });
  edges.sort(function (a, b) { return a.lip - b.lip; });
  const from = [0, 0, 0, 0, 0, 0, 0];
  faces.forEach(function (face) { for (let way = face.way; way < 6; way++) from[way + 1]++; });
  const outer = edges.filter(function (edge) { return !edge.lip; }).length;

  // ---- programs and buffers

  const HEAD = "#version 300 es\nprecision highp float;precision highp sampler2D;uniform mat4 M;uniform sampler2D P;";
  const HIDDEN = "vec4(2.,2.,2.,1.)";

  function program(vertex, fragment) {
    const made = gl.createProgram();
    [[gl.VERTEX_SHADER, vertex], [gl.FRAGMENT_SHADER, fragment]].forEach(function (part) {
      const shader = gl.createShader(part[0]);
      gl.shaderSource(shader, HEAD + part[1]);
      gl.compileShader(shader);
      gl.attachShader(made, shader);
    });
    gl.linkProgram(made);
    if (!gl.getProgramParameter(made, gl.LINK_STATUS)) throw new Error("the bench cannot be drawn here");
    return made;
  }
  const facePen = program(
    "in vec3 p;in uvec2 t;uniform float light[6];uniform float glass;flat out vec4 c;void main(){" +
    "vec4 o=texelFetch(P,ivec2(t.x,0),0);c=texelFetch(P,ivec2(t.x,1),0);bool no=o.w<.5||glass>0.&&c.a<1.5;" +
    "c=vec4(c.rgb*light[int(t.y)],1.)*(glass>0.?glass:1.);gl_Position=no?" + HIDDEN + ":M*vec4(p+o.xyz,1.);}",
    "flat in vec4 c;out vec4 f;void main(){f=c;}");
  const thinPen = program(
    "in vec3 p;in uint t;uniform float near;void main(){vec4 o=texelFetch(P,ivec2(t,0),0);" +
    "gl_Position=o.w<.5?" + HIDDEN + ":M*vec4(p+o.xyz,1.);gl_Position.z-=near;}",
    "uniform vec4 ink;out vec4 f;void main(){f=ink;}");
  // a bold edge is a thin rectangle that always faces the eye
  const boldPen = program(
    "in vec3 a;in vec3 b;in uint t;uniform vec2 px;uniform float near;void main(){vec4 o=texelFetch(P,ivec2(t,0),0);" +
    "vec4 A=M*vec4(a+o.xyz,1.),B=M*vec4(b+o.xyz,1.);vec2 d=(B.xy-A.xy)/px;d=d/max(length(d),1e-6);" +
    "vec2 s=vec2(gl_VertexID&1,gl_VertexID>>1);vec4 q=mix(A,B,s.x);" +
    "q.xy+=(vec2(-d.y,d.x)*(s.y*2.-1.)*.85+d*(s.x*2.-1.)*.4)*px;q.z-=near;gl_Position=o.w<.5?" + HIDDEN + ":q;}",
    "uniform vec4 ink;out vec4 f;void main(){f=ink;}");

  function buffer(kind, data) {
    const made = gl.createBuffer();
    gl.bindBuffer(kind, made);
    gl.bufferData(kind, data, gl.STATIC_DRAW);
    return made;
  }
  function bind(pen, name, size, type, stride, offset, each) {
    const place = gl.getAttribLocation(pen, name);
    gl.enableVertexAttribArray(place);
    if (type === gl.FLOAT) gl.vertexAttribPointer(place, size, type, false, stride, offset);
    else gl.vertexAttribIPointer(place, size, type, stride, offset);
    if (each) gl.vertexAttribDivisor(place, 1);
  }

  const faceArray = gl.createVertexArray();
  gl.bindVertexArray(faceArray);
  buffer(gl.ARRAY_BUFFER, new Float32Array(faces.flatMap(function (face) {
    const axis = face.way >> 1, u = axis ? 0 : 1, v = axis === 2 ? 1 : 2;
    return [0, 1, 2, 3].flatMap(function (corner) {
      const point = face.low.slice();
      if (corner & 1) point[u] = face.high[u];
      if (corner & 2) point[v] = face.high[v];
      return point;
    });
  })));
  bind(facePen, "p", 3, gl.FLOAT, 0, 0);
  buffer(gl.ARRAY_BUFFER, new Uint32Array(faces.flatMap(function (face) {
    return [0, 1, 2, 3].flatMap(function () { return [face.piece, face.way]; });
  })));
  bind(facePen, "t", 2, gl.UNSIGNED_INT, 0, 0);
  buffer(gl.ELEMENT_ARRAY_BUFFER, new Uint32Array(faces.flatMap(function (_, k) {
    return [0, 1, 2, 2, 1, 3].map(function (corner) { return 4 * k + corner; });
  })));

  const edgeArray = gl.createVertexArray();
  gl.bindVertexArray(edgeArray);
  buffer(gl.ARRAY_BUFFER, new Float32Array(edges.flatMap(function (edge) { return edge.start.concat(edge.end); })));
  bind(thinPen, "p", 3, gl.FLOAT, 0, 0);
  buffer(gl.ARRAY_BUFFER, new Uint32Array(edges.flatMap(function (edge) { return [edge.piece, edge.piece]; })));
  bind(thinPen, "t", 1, gl.UNSIGNED_INT, 0, 0);

  const holeArray = gl.createVertexArray();
  gl.bindVertexArray(holeArray);
  buffer(gl.ARRAY_BUFFER, new Float32Array(rims.points));
  bind(thinPen, "p", 3, gl.FLOAT, 0, 0);
  buffer(gl.ARRAY_BUFFER, new Uint32Array(rims.owners));
  bind(thinPen, "t", 1, gl.UNSIGNED_INT, 0, 0);

  const boldArray = gl.createVertexArray();
  let boldOf = null, boldCount = 0;
  gl.bindVertexArray(boldArray);
  const boldEnds = buffer(gl.ARRAY_BUFFER, new Float32Array(0));
  bind(boldPen, "a", 3, gl.FLOAT, 24, 0, true);
  bind(boldPen, "b", 3, gl.FLOAT, 24, 12, true);
  const boldOwners = buffer(gl.ARRAY_BUFFER, new Uint32Array(0));
  bind(boldPen, "t", 1, gl.UNSIGNED_INT, 0, 0, true);

  const texture = gl.createTexture();
  gl.bindTexture(gl.TEXTURE_2D, texture);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.NEAREST);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.NEAREST);

  // ---- the view: rows are right, up and towards the eye, in the axes of the bench

  const POSES = {      // which way of the bench is right, rear and up while `down` points to the floor
    "-z": [[1, 0, 0], [0, 1, 0], [0, 0, 1]], "+z": [[1, 0, 0], [0, -1, 0], [0, 0, -1]],
    "-x": [[0, 0, -1], [0, 1, 0], [1, 0, 0]], "+x": [[0, 0, 1], [0, 1, 0], [-1, 0, 0]],
    "-y": [[1, 0, 0], [0, 0, -1], [0, 1, 0]], "+y": [[1, 0, 0], [0, 0, 1], [0, -1, 0]]
  };
  const MARGIN = 0.94;          // this much of the canvas is used
  let rows, middle, scale, shade;

  function look(view) {
    const cy = Math.cos(view.yaw), sy = Math.sin(view.yaw), cp = Math.cos(view.pitch), sp = Math.sin(view.pitch);
    const pose = POSES[view.down];
    const turned = function (row) { return [0, 1, 2].map(function (i) { return row[0] * pose[0][i] + row[1] * pose[1][i] + row[2] * pose[2][i]; }); };
    rows = [[cy, sy, 0], [-sy * sp, cy * sp, cp], [sy * cp, -cy * cp, sp]].map(turned);
    // light falls from above and a little from the left and the front
    shade = [0, 1, 2, 3, 4, 5].map(function (way) {
      const sign = way & 1 ? 1 : -1, axis = way >> 1;
      return 0.8 + 0.2 * sign * pose[2][axis] - 0.06 * sign * pose[0][axis] - 0.03 * sign * pose[1][axis];
    });
  }

  function dot(a, b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

  function matrix(view) {
    const low = [Infinity, Infinity, Infinity], far = [-Infinity, -Infinity, -Infinity];
    boxes.forEach(function (box, piece) {
      if (!view.place[4 * piece + 3]) return;
      for (let i = 0; i < 3; i++) {
        const ends = [view.place[4 * piece + i], view.reach[3 * piece + i]];
        low[i] = Math.min(low[i], box[i] + Math.min(ends[0], ends[1]));
        far[i] = Math.max(far[i], box[i + 3] + Math.max(ends[0], ends[1]));
      }
    });
    if (low[0] === Infinity) { low.fill(0); far.fill(1); }
    middle = low.map(function (value, i) { return (value + far[i]) / 2; });
    const sizes = low.map(function (value, i) { return far[i] - value; });
    const radius = Math.hypot(sizes[0], sizes[1], sizes[2]) / 2;
    // as wide and high as it is in the worst case of a whole turn, so that it does not breathe while it turns
    const up = [0, 1, 2].find(function (i) { return POSES[view.down][2][i]; });
    const wide = Math.hypot(sizes[(up + 1) % 3], sizes[(up + 2) % 3]);
    const high = wide * Math.abs(Math.sin(view.pitch)) + sizes[up] * Math.cos(view.pitch);
    scale = view.zoom * MARGIN * Math.min(canvas.width / wide, canvas.height / high);
    const sx = 2 * scale / canvas.width, sy = 2 * scale / canvas.height, sz = -1 / (radius * 6);
    const size = devicePixelRatio;
    const made = [0, 1, 2].flatMap(function (i) { return [rows[0][i] * sx, rows[1][i] * sy, rows[2][i] * sz, 0]; });
    return new Float32Array(made.concat([
      -dot(rows[0], middle) * sx + 2 * view.pan[0] * size / canvas.width,
      -dot(rows[1], middle) * sy - 2 * view.pan[1] * size / canvas.height,
      -dot(rows[2], middle) * sz, 1]));
  }

  // ---- drawing

  function fit() {
    const size = devicePixelRatio, width = Math.round(canvas.clientWidth * size), height = Math.round(canvas.clientHeight * size);
    if (width && height && (canvas.width !== width || canvas.height !== height)) { canvas.width = width; canvas.height = height; }
  }

  function gatherBold(view) {
    const lips = scale > LIP_SCALE * devicePixelRatio, key = lips + view.bold.join();
    if (key === boldOf) return;
    boldOf = key;
    const own = edges.filter(function (edge) { return view.bold[edge.piece] && (lips || !edge.lip); });
    boldCount = own.length;
    gl.bindBuffer(gl.ARRAY_BUFFER, boldEnds);
    gl.bufferData(gl.ARRAY_BUFFER, new Float32Array(own.flatMap(function (edge) { return edge.start.concat(edge.end); })), gl.DYNAMIC_DRAW);
    gl.bindBuffer(gl.ARRAY_BUFFER, boldOwners);
    gl.bufferData(gl.ARRAY_BUFFER, new Uint32Array(own.map(function (edge) { return edge.piece; })), gl.DYNAMIC_DRAW);
  }

  function use(pen, M, ink) {
    gl.useProgram(pen);
    gl.uniformMatrix4fv(gl.getUniformLocation(pen, "M"), false, M);
    if (ink) gl.uniform4f(gl.getUniformLocation(pen, "ink"), ink[0], ink[1], ink[2], 1);
    if (ink) gl.uniform1f(gl.getUniformLocation(pen, "near"), BIAS);
  }

  /* All faces; with `glass` only those of chosen pieces, so dense. */
  function drawFaces(glass) {
    gl.uniform1f(gl.getUniformLocation(facePen, "glass"), glass);
    gl.bindVertexArray(faceArray);
    for (let way = 0; way < 6; way++) {
      if (rows[2][way >> 1] * (way & 1 ? 1 : -1) > 0) {
        gl.drawElements(gl.TRIANGLES, 6 * (from[way + 1] - from[way]), gl.UNSIGNED_INT, 24 * from[way]);
      }
    }
  }

  /* `view`: yaw, pitch, zoom, pan, down; for each piece place (offset and whether it shows), reach (the offset from
     which it comes), colour (its fourth number is 2 for a chosen one) and whether it is bold; `through`: chosen ones
     show through what is before them. */
  function draw(view) {
    fit();
    look(view);
    const M = matrix(view), data = new Float32Array(count * 8);
    data.set(view.place);
    view.colours.forEach(function (colour, piece) { data.set(colour, 4 * (count + piece)); });
    gl.bindTexture(gl.TEXTURE_2D, texture);
    gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA32F, count, 2, 0, gl.RGBA, gl.FLOAT, data);
    gl.viewport(0, 0, canvas.width, canvas.height);
    gl.enable(gl.DEPTH_TEST);
    gl.clearColor(0, 0, 0, 0);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);

    use(facePen, M);
    gl.uniform1fv(gl.getUniformLocation(facePen, "light"), shade);
    drawFaces(0);
    if (rims.owners.length) {
      use(thinPen, M, view.hollow);
      gl.bindVertexArray(holeArray);
      gl.drawArrays(gl.TRIANGLES, 0, rims.owners.length);
    }
    use(thinPen, M, view.ink);
    gl.bindVertexArray(edgeArray);
    gl.drawArrays(gl.LINES, 0, 2 * (scale > LIP_SCALE * devicePixelRatio ? edges.length : outer));

    if (view.through) {
      gl.disable(gl.DEPTH_TEST);
      gl.enable(gl.BLEND);
      gl.blendFunc(gl.ONE, gl.ONE_MINUS_SRC_ALPHA);
      gl.useProgram(facePen);
      drawFaces(GLASS);
      gl.disable(gl.BLEND);
    }
    gatherBold(view);
    use(boldPen, M, view.ink);
    gl.uniform2f(gl.getUniformLocation(boldPen, "px"), 2 * devicePixelRatio / canvas.width, 2 * devicePixelRatio / canvas.height);
    gl.bindVertexArray(boldArray);
    gl.drawArraysInstanced(gl.TRIANGLE_STRIP, 0, 4, boldCount);
  }

  /* The piece under a place of the canvas (CSS pixels), -1 where there is none: of the faces that look at the eye and
     hold the place, the nearest. */
  function pick(x, y, view) {
    const size = devicePixelRatio;
    const u = ((x - view.pan[0]) * size - canvas.width / 2) / scale, v = (canvas.height / 2 - (y - view.pan[1]) * size) / scale;
    const eye = middle.map(function (value, i) { return value + rows[0][i] * u + rows[1][i] * v; });
    let nearest = -Infinity, found = -1;
    faces.forEach(function (face) {
      const axis = face.way >> 1, slope = rows[2][axis], place = 4 * face.piece;
      if (!view.place[place + 3] || slope * (face.way & 1 ? 1 : -1) <= 0) return;
      const far = (face.low[axis] + view.place[place + axis] - eye[axis]) / slope;
      if (far <= nearest) return;
      const inside = [0, 1, 2].every(function (i) {
        const at = eye[i] + rows[2][i] * far - view.place[place + i];
        return i === axis || (at >= face.low[i] && at <= face.high[i]);
      });
      if (inside) { nearest = far; found = face.piece; }
    });
    return found;
  }

  /* Where the middle of a piece is on the canvas, in CSS pixels. */
  function where(piece, view) {
    const point = [0, 1, 2].map(function (i) { return (boxes[piece][i] + boxes[piece][i + 3]) / 2 + view.place[4 * piece + i] - middle[i]; });
    return [
      (canvas.width / 2 + dot(rows[0], point) * scale) / devicePixelRatio + view.pan[0],
      (canvas.height / 2 - dot(rows[1], point) * scale) / devicePixelRatio + view.pan[1]];
  }

  return { draw: draw, pick: pick, where: where };
}
