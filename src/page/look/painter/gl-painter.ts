import { identityMatrix } from '../../../colour/index.ts';
import type { RgbHalf } from '../../../image/index.ts';
import { workingLuminance } from '../../../look/index.ts';
import { GlTables } from './gl-tables.ts';
import { type Drawing, outputLuminance, outputMatrix, type Painter, type Tables } from './painter.ts';
import { fragmentShader, vertexShader } from './shader.ts';

/** A painter by WebGL 2, or null where there is none or its shaders are refused. */
export function glPainter(canvas: HTMLCanvasElement): Painter | null {
  const gl = canvas.getContext('webgl2', {
    alpha: false,
    antialias: false,
    depth: false,
    stencil: false,
    // What was drawn last stays to be read: by whoever points at a neutral, and by the tests.
    preserveDrawingBuffer: true,
  });
  if (gl === null) return null;
  let held = openGl(gl);
  if (held === null) return null;
  const given: { scene: RgbHalf | null; now: Tables | null; before: Tables | null; drawing: Drawing | null } =
    {
      scene: null,
      now: null,
      before: null,
      drawing: null,
    };
  const again = (): void => {
    held = openGl(gl);
    if (held === null) return;
    if (given.scene !== null) held.setScene(given.scene);
    if (given.now !== null) held.now.set(given.now);
    if (given.before !== null) held.before.set(given.before);
    if (given.drawing !== null) held.draw(canvas, given.drawing);
  };
  // Without this the browser would not give the context back.
  const lost = (event: Event): void => event.preventDefault();
  canvas.addEventListener('webglcontextlost', lost);
  canvas.addEventListener('webglcontextrestored', again);
  return {
    kind: 'webgl',
    setScene: (scene) => {
      given.scene = scene;
      held?.setScene(scene);
    },
    setTables: (side, tables) => {
      given[side] = tables;
      held?.[side].set(tables);
    },
    draw: (drawing) => {
      given.drawing = drawing;
      held?.draw(canvas, drawing);
    },
    close: () => {
      canvas.removeEventListener('webglcontextlost', lost);
      canvas.removeEventListener('webglcontextrestored', again);
    },
  };
}

interface HeldGl {
  readonly now: GlTables;
  readonly before: GlTables;
  readonly setScene: (scene: RgbHalf) => void;
  readonly draw: (canvas: HTMLCanvasElement, drawing: Drawing) => void;
}

function openGl(gl: WebGL2RenderingContext): HeldGl | null {
  const program = programOf(gl);
  if (program === null) return null;
  const places = new Map<string, WebGLUniformLocation | null>();
  const at = (name: string): WebGLUniformLocation | null => {
    const known = places.get(name);
    if (known !== undefined) return known;
    const place = gl.getUniformLocation(program, name);
    places.set(name, place);
    return place;
  };
  const scene = gl.createTexture();
  const now = new GlTables(gl);
  const before = new GlTables(gl);
  let size = { widthPx: 0, heightPx: 0 };
  // biome-ignore lint/correctness/useHookAtTopLevel: a call of WebGL, no hook
  gl.useProgram(program);
  gl.uniform1i(at('scene'), 0);
  gl.uniform1i(at('curve'), 1);
  gl.uniform1i(at('lattice'), 2);
  gl.uniform3fv(at('workLuminance'), workingLuminance);
  gl.uniformMatrix3fv(at('toOutput'), true, outputMatrix);
  gl.uniform3fv(at('outputLuminance'), outputLuminance);
  return {
    now,
    before,
    setScene: ({ widthPx, heightPx, halves }) => {
      size = { widthPx, heightPx };
      gl.activeTexture(gl.TEXTURE0);
      gl.bindTexture(gl.TEXTURE_2D, scene);
      // Rows of three halves are whole pairs of bytes and no more.
      gl.pixelStorei(gl.UNPACK_ALIGNMENT, 2);
      gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGB16F, widthPx, heightPx, 0, gl.RGB, gl.HALF_FLOAT, halves);
      gl.pixelStorei(gl.UNPACK_ALIGNMENT, 4);
      for (const name of [gl.TEXTURE_WRAP_S, gl.TEXTURE_WRAP_T]) {
        gl.texParameteri(gl.TEXTURE_2D, name, gl.CLAMP_TO_EDGE);
      }
      for (const name of [gl.TEXTURE_MIN_FILTER, gl.TEXTURE_MAG_FILTER]) {
        gl.texParameteri(gl.TEXTURE_2D, name, gl.LINEAR);
      }
    },
    draw: (canvas, { placed, edge }) => {
      const { widthPx, heightPx, toScene, middle } = placed;
      if (size.widthPx === 0) return;
      if (canvas.width !== widthPx) canvas.width = widthPx;
      if (canvas.height !== heightPx) canvas.height = heightPx;
      gl.viewport(0, 0, widthPx, heightPx);
      gl.activeTexture(gl.TEXTURE0);
      gl.bindTexture(gl.TEXTURE_2D, scene);
      gl.uniform2f(at('canvasSize'), widthPx, heightPx);
      gl.uniformMatrix3fv(at('place'), true, toScene);
      gl.uniform4f(at('middle'), middle.scaleX, middle.scaleY, middle.x, middle.y);
      const isPixelForPixel =
        widthPx === size.widthPx &&
        heightPx === size.heightPx &&
        // The way there and back through pixels leaves a last digit.
        toScene.every((number, index) => Math.abs(number - (identityMatrix[index] ?? 0)) < 1e-9);
      gl.uniform1i(at('pixelForPixel'), isPixelForPixel ? 1 : 0);
      gl.enable(gl.SCISSOR_TEST);
      const edgePx = Math.round(Math.min(1, Math.max(0, edge)) * widthPx);
      if (edgePx > 0 && before.bind(at)) {
        gl.scissor(0, 0, edgePx, heightPx);
        gl.drawArrays(gl.TRIANGLES, 0, 3);
      }
      if (edgePx < widthPx && now.bind(at)) {
        gl.scissor(edgePx, 0, widthPx - edgePx, heightPx);
        gl.drawArrays(gl.TRIANGLES, 0, 3);
      }
    },
  };
}

function programOf(gl: WebGL2RenderingContext): WebGLProgram | null {
  const program = gl.createProgram();
  for (const [kind, source] of [
    [gl.VERTEX_SHADER, vertexShader],
    [gl.FRAGMENT_SHADER, fragmentShader],
  ] as const) {
    const shader = gl.createShader(kind);
    if (shader === null) return null;
    gl.shaderSource(shader, source);
    gl.compileShader(shader);
    gl.attachShader(program, shader);
  }
  gl.linkProgram(program);
  return gl.getProgramParameter(program, gl.LINK_STATUS) === true ? program : null;
}
