// Draws a surface of bare triangles with WebGL: turned by mouse, finger or keys, cut open by a plane. Words stand in where that is missing.
(() => {
  "use strict";
  const Vertex = `attribute vec3 place; attribute vec3 normal; uniform mat3 turn; uniform vec3 middle; uniform vec3 axis; uniform float size; uniform float ratio;
    varying vec3 facing; varying float along;
    void main() { vec3 p = turn * (place - middle) / size; facing = turn * normal; along = dot(place - middle, axis) / size; gl_Position = vec4(p.x / max(ratio, 1.0), p.y * min(ratio, 1.0), -p.z * 0.3, 1.0); }`;
  const Fragment = `precision mediump float; varying vec3 facing; varying float along; uniform float cut;
    void main() { if (along > cut) discard; float light = abs(dot(normalize(facing), normalize(vec3(0.3, 0.5, 0.8))));
      vec3 tone = gl_FrontFacing ? vec3(0.60, 0.66, 0.70) : vec3(0.80, 0.47, 0.27); gl_FragColor = vec4(tone * (0.35 + 0.65 * light), 1.0); }`;

  async function begin(box) {
    const address = box.dataset.mesh;
    box.meshAddress = address;
    const canvas = box.querySelector("[data-mesh-canvas]"), words = box.querySelector("[data-mesh-words]");
    const give = text => { words.textContent = text; words.hidden = false; canvas.hidden = true; };
    const gl = canvas.getContext("webgl", { antialias: true });
    if (!gl) { give("This browser cannot draw the surface (no WebGL); the measures below are complete without it."); return; }
    let places;
    try {
      const answer = await fetch(address, { credentials: "same-origin" });
      if (!answer.ok) { give("The surface cannot be drawn; see what was found below."); return; }
      places = new Float32Array(await answer.arrayBuffer());
    } catch { give("The surface did not arrive: no connection. Load the page again."); return; }
    if (places.length < 9 || box.meshAddress !== address) return;
    const normals = new Float32Array(places.length), low = [Infinity, Infinity, Infinity], high = [-Infinity, -Infinity, -Infinity];
    for (let n = 0; n < places.length; n += 9) {
      const [ux, uy, uz] = [places[n + 3] - places[n], places[n + 4] - places[n + 1], places[n + 5] - places[n + 2]];
      const [vx, vy, vz] = [places[n + 6] - places[n], places[n + 7] - places[n + 1], places[n + 8] - places[n + 2]];
      const normal = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
      const length = Math.hypot(...normal) || 1;
      for (let corner = 0; corner < 9; corner++) {
        normals[n + corner] = normal[corner % 3] / length;
        low[corner % 3] = Math.min(low[corner % 3], places[n + corner]);
        high[corner % 3] = Math.max(high[corner % 3], places[n + corner]);
      }
    }
    const middle = low.map((each, n) => (each + high[n]) / 2), size = Math.hypot(...high.map((each, n) => each - low[n])) / 1.7;
    const compile = (kind, text) => { const shader = gl.createShader(kind); gl.shaderSource(shader, text); gl.compileShader(shader); return shader; };
    const program = gl.createProgram();
    gl.attachShader(program, compile(gl.VERTEX_SHADER, Vertex));
    gl.attachShader(program, compile(gl.FRAGMENT_SHADER, Fragment));
    gl.linkProgram(program);
    if (!gl.getProgramParameter(program, gl.LINK_STATUS)) { give("This device cannot draw the surface; the measures below are complete without it."); return; }
    gl.useProgram(program);
    [["place", places], ["normal", normals]].forEach(([name, values]) => {
      gl.bindBuffer(gl.ARRAY_BUFFER, gl.createBuffer());
      gl.bufferData(gl.ARRAY_BUFFER, values, gl.STATIC_DRAW);
      const at = gl.getAttribLocation(program, name);
      gl.enableVertexAttribArray(at);
      gl.vertexAttribPointer(at, 3, gl.FLOAT, false, 0, 0);
    });
    gl.enable(gl.DEPTH_TEST);
    const uniform = name => gl.getUniformLocation(program, name);
    let [round, tilt, near, cut, axis, asked] = [0.6, -1.1, 1, 2, 2, false];
    function draw() {
      asked = false;
      const ratio = devicePixelRatio || 1;
      [canvas.width, canvas.height] = [canvas.clientWidth * ratio, canvas.clientHeight * ratio];
      gl.viewport(0, 0, canvas.width, canvas.height);
      gl.clearColor(1, 1, 1, 1);
      gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
      const [c, s, d, t] = [Math.cos(round), Math.sin(round), Math.cos(tilt), Math.sin(tilt)];
      gl.uniformMatrix3fv(uniform("turn"), false, [c, s * d, s * t, -s, c * d, c * t, 0, -t, d]);
      gl.uniform3fv(uniform("middle"), middle);
      gl.uniform3fv(uniform("axis"), [0, 1, 2].map(n => n === axis ? 1 : 0));
      gl.uniform1f(uniform("size"), size / near);
      gl.uniform1f(uniform("ratio"), canvas.width / canvas.height);
      gl.uniform1f(uniform("cut"), cut * near);
      gl.drawArrays(gl.TRIANGLES, 0, places.length / 3);
    }
    const ask = () => { if (!asked) { asked = true; requestAnimationFrame(draw); } };
    words.hidden = true;
    canvas.hidden = false;
    box.dataset.meshDrawn = String(places.length / 9);
    let held = null;
    canvas.onpointerdown = event => { held = [event.clientX, event.clientY]; canvas.setPointerCapture(event.pointerId); };
    canvas.onpointermove = event => {
      if (!held) return;
      round += (event.clientX - held[0]) / 120;
      tilt += (event.clientY - held[1]) / 120;
      held = [event.clientX, event.clientY];
      ask();
    };
    canvas.onpointerup = canvas.onpointercancel = () => { held = null; };
    canvas.onkeydown = event => {
      const step = { ArrowLeft: [-0.12, 0], ArrowRight: [0.12, 0], ArrowUp: [0, -0.12], ArrowDown: [0, 0.12] }[event.key];
      if (step) { round += step[0]; tilt += step[1]; } else if (event.key === "+") near = Math.min(4, near * 1.15); else if (event.key === "-") near = Math.max(0.4, near / 1.15); else return;
      event.preventDefault();
      ask();
    };
    const slider = box.querySelector("[data-mesh-cut]"), ways = box.querySelector("[data-mesh-axis]");
    const place = () => {
      axis = Number(ways.value);
      const half = (high[axis] - low[axis]) / 2 / size;
      cut = slider.value >= 100 ? 2 : -half + 2 * half * slider.value / 100;
      ask();
    };
    slider.oninput = ways.onchange = place;
    place();
    new ResizeObserver(ask).observe(canvas);
    ask();
  }

  // Boxes come and go with the page that shows them.
  const look = () => document.querySelectorAll("[data-mesh]").forEach(box => { if (box.meshAddress !== box.dataset.mesh) begin(box); });
  new MutationObserver(look).observe(document.documentElement, { subtree: true, childList: true, attributes: true, attributeFilter: ["data-mesh"] });
  look();
})();
