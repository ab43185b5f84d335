/** When a picture is drawn, and how fine: once after each change, coarser while much moves on a slow machine. */

import { listeners } from "bench/listeners";
import { createTags } from "bench/tags";

const FINEST = 2; // pixels for one of the page's
const SMOOTH = 1.5; // at least, where the graphics do not smooth edges themselves
const COARSE = 0.6; // of the fineness, while it moves
const SLOW = 70; // ms between pictures
const REST = 200; // ms without a change before tags are put on

/** @param {HTMLCanvasElement} canvas @throws {Error} without WebGL 2 */
export function createDrawer(canvas) {
  const { THREE } = globalThis;
  const soft = drawnInSoftware();
  const context = canvas.getContext("webgl2", { antialias: !soft, alpha: false, powerPreference: "high-performance" });
  if (!context || !THREE) throw new Error("this browser has no WebGL 2");
  const renderer = new THREE.WebGLRenderer({ canvas, context });
  const screen = { size: { value: new THREE.Vector2(1, 1) }, dense: { value: 1 } };
  const tags = createTags(canvas, renderer);
  const [framed, sized, told] = [listeners(), listeners(), listeners()];
  const quit = new AbortController();
  const watch = new ResizeObserver(() => size());
  let [asked, resting, drawnAt, pace, coarse, lost] = [0, 0, 0, 0, false, false];
  let play = null; // { camera, props, scene }
  const air = new THREE.Color();

  canvas.addEventListener("webglcontextlost", (event) => {
    event.preventDefault();
    lost = true;
    tags.clear();
    told.tell("lost");
  }, { signal: quit.signal });
  canvas.addEventListener("webglcontextrestored", () => {
    lost = false;
    renderer.setClearColor(air, 1);
    told.tell("back");
    size();
  }, { signal: quit.signal });

  function ask() {
    if (!asked && play && !lost) asked = requestAnimationFrame(draw);
  }

  /** On paper the bench is not there; once it is again, its size has changed, and it is drawn. */
  const seen = () => canvas.clientWidth > 0 && canvas.clientHeight > 0;

  function draw(now) {
    asked = 0;
    if (lost || !seen()) return;
    const since = now - drawnAt;
    drawnAt = now;
    if (since < 1000) pace = pace ? 0.7 * pace + 0.3 * since : since;
    refine(since < 400 && pace > SLOW);
    tags.clear();
    render();
    clearTimeout(resting);
    resting = setTimeout(rest, REST);
  }

  function render(target = null) {
    const { camera, props } = play;
    camera.place(aspect());
    if (!target) props.prepare(camera.camera, camera.perPixel(canvas.clientHeight), hasty());
    renderer.setRenderTarget(target);
    renderer.render(play.scene, camera.camera);
    renderer.setRenderTarget(null);
    if (!target) framed.tell();
  }

  function rest() {
    if (lost || !play || !seen() || play.camera.flying) return;
    if (coarse) {
      refine(false);
      render();
    }
    const { props } = play;
    tags.put((target) => {
      screen.size.value.set(target.width, target.height);
      renderer.setClearColor(0, 0);
      props.alone(() => render(target));
      renderer.setClearColor(air, 1);
      measure();
    }, props.textOf);
  }

  /** Slower than that, and only faces are drawn while it moves. */
  const hasty = () => coarse && pace > 3 * SLOW;

  function refine(toCoarse) {
    if (coarse === toCoarse) return;
    coarse = toCoarse;
    fit();
  }

  const fine = () => Math.min(FINEST, Math.max(window.devicePixelRatio || 1, soft ? SMOOTH : 1));

  function measure() {
    screen.dense.value = renderer.getPixelRatio();
    renderer.getDrawingBufferSize(screen.size.value);
  }

  function fit() {
    renderer.setPixelRatio(fine() * (coarse ? COARSE : 1));
    renderer.setSize(Math.max(1, canvas.clientWidth), Math.max(1, canvas.clientHeight), false);
    measure();
  }

  function size() {
    fit();
    sized.tell();
    ask();
  }

  const aspect = () => Math.max(1, canvas.clientWidth) / Math.max(1, canvas.clientHeight);

  return {
    screen,
    ask,
    size,
    aspect,
    start(what) {
      play = what;
      fit();
      watch.observe(canvas);
    },
    setAir(colour) {
      renderer.setClearColor(air.fromArray(colour), 1);
      ask();
    },
    onFrame: framed.add,
    onSize: sized.add,
    onContext: told.add,
    end() {
      quit.abort();
      watch.disconnect();
      cancelAnimationFrame(asked);
      clearTimeout(resting);
      play = null;
      tags.end();
      renderer.dispose();
    },
  };
}

/** Without graphics hardware smooth edges take four times as long; finer pixels at rest do instead. */
function drawnInSoftware() {
  const probe = document.createElement("canvas").getContext("webgl2");
  const told = probe?.getExtension("WEBGL_debug_renderer_info");
  const name = told ? String(probe.getParameter(told.UNMASKED_RENDERER_WEBGL)) : "";
  probe?.getExtension("WEBGL_lose_context")?.loseContext();
  return /swiftshader|llvmpipe|software/i.test(name);
}
