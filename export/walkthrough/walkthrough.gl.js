/* Draws the model: boxes as instances, walls and roof as meshes, an orbiting camera. Draws only when asked. */
"use strict";

const FIELD_OF_VIEW = (30 * Math.PI) / 180;
/* Half the width and height that a fitted model takes, and how far up its middle is: buttons stand below it. */
const [FIT_WIDTH, FIT_HEIGHT, FIT_MIDDLE] = [0.93, 0.8, 0.08];
const MARGIN_FT = 7;
/* Numbers from here on are no items of the house but parts of a cutaway. */
const FIRST_PART = 60000;
const UNIFORMS = ["view", "eye", "opacity", "kind"];
/* Colours of items stand in a square picture of this side: 256 rows of 256 items. */
const PALETTE_SIDE = 256;
const AXES = ["centre", "u", "v", "w"];
/* The corners of a box as signs of its half-edges, its twelve triangles and its twelve edges. */
const CUBE = Float32Array.from([0, 1, 2, 3, 4, 5, 6, 7].flatMap((i) => [i & 1 ? 1 : -1, i & 2 ? 1 : -1, i & 4 ? 1 : -1]));
const CUBE_TRIANGLES = [0, 2, 1, 1, 2, 3, 4, 5, 6, 5, 7, 6, 0, 1, 4, 1, 5, 4, 2, 6, 3, 3, 6, 7, 0, 4, 2, 2, 4, 6, 1, 3, 5, 3, 7, 5];
const CUBE_EDGES = [0, 1, 2, 3, 4, 5, 6, 7, 0, 2, 1, 3, 4, 6, 5, 7, 0, 4, 1, 5, 2, 6, 3, 7];

/* A camera that looks at a point from a bearing and a height angle (radians) and a distance (feet). */
class Camera {
  constructor(low, high) {
    this.low = low;
    this.high = high;
    this.target = [0, 1, 2].map((k) => (low[k] + high[k]) / 2);
    this.turn = -0.9;
    this.tilt = 0.42;
    this.distance = 100;
  }

  axes() {
    const [ct, st, cu, su] = [Math.cos(this.turn), Math.sin(this.turn), Math.cos(this.tilt), Math.sin(this.tilt)];
    return { right: [-st, ct, 0], up: [-su * ct, -su * st, cu], back: [cu * ct, cu * st, su] };
  }

  eye() {
    const { back } = this.axes();
    return this.target.map((t, k) => t + back[k] * this.distance);
  }

  /* Moves and backs off until the whole model fits the middle of the picture, from the direction looked from. */
  fit(aspect) {
    this.target = this.low.map((low, k) => (low + this.high[k]) / 2);
    this.distance = 2 * Math.hypot(...this.high.map((h, k) => h - this.low[k]));
    for (let round = 0; round < 6; round++) {
      const { right, up } = this.axes();
      const [across, upward] = this.extent(aspect);
      const feet = Math.tan(FIELD_OF_VIEW / 2) * this.distance;
      const [dx, dy] = [((across[0] + across[1]) / 2) * feet * aspect, ((upward[0] + upward[1]) / 2 - FIT_MIDDLE) * feet];
      this.target = this.target.map((t, k) => t + right[k] * dx + up[k] * dy);
      this.distance *= Math.max((across[1] - across[0]) / 2 / FIT_WIDTH, (upward[1] - upward[0]) / 2 / FIT_HEIGHT);
    }
  }

  /* Lowest and highest place of the model across and up the picture, each from -1 to 1 at its edges. */
  extent(aspect) {
    const m = this.matrix(aspect);
    const corners = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => [0, 1, 2].map((k) => ((i >> k) & 1 ? this.high[k] : this.low[k])));
    const places = corners.map((p) => [0, 1, 3].map((k) => m[k] * p[0] + m[k + 4] * p[1] + m[k + 8] * p[2] + m[k + 12]));
    return [0, 1].map((k) => {
      const all = places.map((p) => p[k] / p[2]);
      return [Math.min(...all), Math.max(...all)];
    });
  }

  /* Column-major matrix from feet to clip space. */
  matrix(aspect) {
    const { right, up, back } = this.axes();
    const eye = this.eye();
    /* As near together as the model and the ground around it allow: else edges show through what hides them. */
    const deep = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => back.reduce((sum, b, k) => sum + b * (eye[k] - ((i >> k) & 1 ? this.high[k] + MARGIN_FT : this.low[k] - MARGIN_FT)), 0));
    const near = Math.max(Math.min(...deep), this.distance * 0.02, 0.2);
    const far = Math.max(...deep, near + 1);
    const f = 1 / Math.tan(FIELD_OF_VIEW / 2);
    const a = (far + near) / (near - far);
    const b = (2 * far * near) / (near - far);
    const m = [];
    for (let k = 0; k < 3; k++) m.push((f / aspect) * right[k], f * up[k], a * back[k], -back[k]);
    m.push((-f / aspect) * dot(right, eye), -f * dot(up, eye), -a * dot(back, eye) + b, dot(back, eye));
    return m;
  }
}

function dot(a, b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function program(gl, vertex, fragment) {
  const made = gl.createProgram();
  for (const [kind, source] of [[gl.VERTEX_SHADER, vertex], [gl.FRAGMENT_SHADER, fragment]]) {
    const shader = gl.createShader(kind);
    gl.shaderSource(shader, source);
    gl.compileShader(shader);
    gl.attachShader(made, shader);
  }
  gl.linkProgram(made);
  if (!gl.getProgramParameter(made, gl.LINK_STATUS)) throw new Error("the graphics programs do not link");
  return made;
}

/* The WebGL side. A layer holds the boxes or the mesh of one stage, of both roofs or of one; each roof has its colours. */
class Picture {
  constructor(canvas, sources, layers) {
    const gl = canvas.getContext("webgl2", { antialias: true, alpha: true });
    if (!gl) throw new Error("this browser has no WebGL 2");
    Object.assign(this, { gl, canvas, palettes: [], parts: [] });
    this.program = program(gl, sources.vertex, sources.fragment);
    this.uniforms = Object.fromEntries(UNIFORMS.map((name) => [name, gl.getUniformLocation(this.program, name)]));
    this.layers = layers.map((layer) => this.upload(layer));
    gl.useProgram(this.program);
    gl.enable(gl.DEPTH_TEST);
    gl.depthFunc(gl.LEQUAL);
    gl.blendFuncSeparate(gl.SRC_ALPHA, gl.ONE_MINUS_SRC_ALPHA, gl.ONE, gl.ONE_MINUS_SRC_ALPHA);
  }

  add(layers) {
    this.layers.push(...layers.map((layer) => this.upload(layer)));
  }

  upload(layer) {
    const { gl } = this;
    const mesh = { ...layer, vertices: gl.createVertexArray() };
    const each = layer.boxes ? 1 : 0;
    gl.bindVertexArray(mesh.vertices);
    this.attribute("corner", 3, layer.boxes ? CUBE : layer.places, 0);
    for (const name of AXES) if (layer.boxes) this.attribute(name, 3, layer.boxes[name], 1);
    this.attribute("item", 1, Float32Array.from(layer.items), each);
    const triangles = layer.boxes ? CUBE_TRIANGLES : layer.triangles;
    const edges = layer.boxes ? CUBE_EDGES : layer.edges;
    Object.assign(mesh, { n_instances: layer.items.length * each, n_triangles: triangles.length, n_edges: edges.length });
    gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, gl.createBuffer());
    gl.bufferData(gl.ELEMENT_ARRAY_BUFFER, Uint32Array.from([...triangles, ...edges]), gl.STATIC_DRAW);
    return mesh;
  }

  attribute(name, size, data, divisor) {
    const { gl } = this;
    const at = gl.getAttribLocation(this.program, name);
    gl.bindBuffer(gl.ARRAY_BUFFER, gl.createBuffer());
    gl.bufferData(gl.ARRAY_BUFFER, data, gl.STATIC_DRAW);
    gl.enableVertexAttribArray(at);
    gl.vertexAttribPointer(at, size, gl.FLOAT, false, 0, 0);
    gl.vertexAttribDivisor(at, divisor);
  }

  /* `rgb` holds three numbers from 0 to 255 for each item. */
  paint(rgb, roof = 0) {
    const { gl } = this;
    this.palettes[roof] ??= gl.createTexture();
    const texels = new Uint8Array(3 * PALETTE_SIDE * PALETTE_SIDE);
    texels.set(rgb);
    texels.set(this.parts, 3 * FIRST_PART);
    gl.bindTexture(gl.TEXTURE_2D, this.palettes[roof]);
    gl.pixelStorei(gl.UNPACK_ALIGNMENT, 1);
    gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGB8, PALETTE_SIDE, PALETTE_SIDE, 0, gl.RGB, gl.UNSIGNED_BYTE, texels);
    gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.NEAREST);
    gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.NEAREST);
  }

  /* Every layer up to `stage`, the see-through ones last, in each pane; `high` is the picture's height in CSS pixels.
     Without edges while it moves. */
  draw(camera, matrix, stage, panes, high, edges) {
    const { gl, canvas } = this;
    this.begin(camera, matrix);
    for (const pane of panes) {
      this.aim(pane, high, canvas.height / high);
      const shown = this.layersOf(pane).filter((layer) => layer.stage <= stage);
      /* From the outside in, so that what is hidden costs little. */
      for (const layer of [...shown].reverse()) if (layer.opacity === 1) this.drawLayer(layer, edges);
      gl.depthMask(false);
      for (const layer of shown) if (layer.opacity < 1) this.drawLayer(layer, edges);
      gl.depthMask(true);
    }
  }

  /* Draws into a pane only, in the colours of its roof. */
  aim({ left, top, width, height, roof }, high, scale) {
    const { gl } = this;
    const box = [left, high - top - height, width, height].map((n) => Math.round(n * scale));
    gl.viewport(...box);
    gl.scissor(...box);
    gl.enable(gl.SCISSOR_TEST);
    gl.bindTexture(gl.TEXTURE_2D, this.palettes[roof]);
  }

  /* The cutaway where there is one; else the layers of a roof; of the deck whole and the deck cut by its zones the one that the colours are of. */
  layersOf({ roof }) {
    if (this.only) return this.only;
    return this.layers.filter((layer) => (layer.roof ?? roof) === roof && (layer.deck ?? this.deck) === this.deck);
  }

  begin(camera, matrix) {
    const { gl, uniforms, program } = this;
    gl.disable(gl.SCISSOR_TEST);
    gl.clearColor(0, 0, 0, 0);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    this.view = matrix;
    gl.uniformMatrix4fv(uniforms.view, false, matrix);
    gl.uniform3fv(uniforms.eye, camera.eye());
    AXES.forEach((name, k) => gl.vertexAttrib3f(gl.getAttribLocation(program, name), +(k === 1), +(k === 2), +(k === 3)));
  }

  drawLayer(layer, edges) {
    const { gl } = this;
    /* What is being lifted off stands so many feet too high. */
    const high = this.view.map((m, k) => (k < 12 ? m : m + (layer.lift || 0) * this.view[k - 4]));
    if (layer.lift) gl.uniformMatrix4fv(this.uniforms.view, false, high);
    this.drawPart(layer, gl.TRIANGLES, layer.n_triangles, 0, 0, layer.opacity);
    if (edges) this.drawPart(layer, gl.LINES, layer.n_edges, layer.n_triangles * 4, 1, (layer.lift ? layer.opacity : 1) * (layer.opacity < 1 ? 0.6 : 0.35));
    if (layer.lift) gl.uniformMatrix4fv(this.uniforms.view, false, this.view);
  }

  drawPart(layer, mode, count, offset, kind, opacity) {
    const { gl, uniforms } = this;
    gl.bindVertexArray(layer.vertices);
    (opacity < 1 ? gl.enable : gl.disable).call(gl, gl.BLEND);
    /* The far side of a closed solid is never seen; glass has two sides, and the deck's zones are open sheets. */
    (opacity < 1 || layer.deck === "zoned" || this.only ? gl.disable : gl.enable).call(gl, gl.CULL_FACE);
    gl.uniform1i(uniforms.kind, kind);
    gl.uniform1f(uniforms.opacity, opacity);
    if (layer.n_instances) gl.drawElementsInstanced(mode, count, gl.UNSIGNED_INT, offset, layer.n_instances);
    else gl.drawElements(mode, count, gl.UNSIGNED_INT, offset);
  }

  /* What is in front at each pixel of a small picture, top row last: the item, from 1, 0 where there is none, then its
     depth from 0 to 65535. The roof's see-through layers are left out unless `roofed` names the stage up to which they are there. */
  inFront(camera, matrix, stage, panes, width, height, roofed) {
    const { gl } = this;
    if (!this.aside) this.aside = { frame: gl.createFramebuffer(), colour: gl.createRenderbuffer(), depth: gl.createRenderbuffer() };
    const { frame, colour, depth } = this.aside;
    gl.bindFramebuffer(gl.FRAMEBUFFER, frame);
    for (const [buffer, format, place] of [[colour, gl.RGBA8, gl.COLOR_ATTACHMENT0], [depth, gl.DEPTH_COMPONENT24, gl.DEPTH_ATTACHMENT]]) {
      gl.bindRenderbuffer(gl.RENDERBUFFER, buffer);
      gl.renderbufferStorage(gl.RENDERBUFFER, format, width, height);
      gl.framebufferRenderbuffer(gl.FRAMEBUFFER, place, gl.RENDERBUFFER, buffer);
    }
    this.begin(camera, matrix);
    for (const pane of panes) {
      this.aim(pane, height, 1);
      const there = (layer) => (layer.stage <= stage && layer.opacity === 1) || (roofed && layer.glass < 1 && layer.stage <= Math.max(stage, roofed));
      for (const layer of this.layersOf(pane).filter(there)) this.drawPart(layer, gl.TRIANGLES, layer.n_triangles, 0, 2, 1);
    }
    const words = new Uint16Array(width * height * 2);
    gl.readPixels(0, 0, width, height, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(words.buffer));
    gl.bindFramebuffer(gl.FRAMEBUFFER, null);
    return words;
  }
}
