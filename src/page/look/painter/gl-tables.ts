import { falloffSteepness, type Shaper, shape } from '../../../look/index.ts';
import type { Tables } from './painter.ts';

/** Samples of the curve in a row of its texture: 4097 are wider than the least that every machine takes. */
const curveAcross = 64;

/** The tables of one look as textures, with the numbers that the shader takes beside them. */
export class GlTables {
  readonly #gl: WebGL2RenderingContext;
  readonly #curve: WebGLTexture;
  readonly #lattice: WebGLTexture;
  #tables: Tables | null = null;
  #nodes = 0;

  constructor(gl: WebGL2RenderingContext) {
    this.#gl = gl;
    this.#curve = plainTexture(gl, gl.TEXTURE_2D);
    this.#lattice = plainTexture(gl, gl.TEXTURE_3D);
  }

  set(tables: Tables): void {
    // A knob of tone leaves the lattice alone, which is the larger part.
    const known = this.#tables;
    this.#tables = tables;
    if (tables.curve !== null && tables.curve !== known?.curve) this.#setCurve(tables.curve.samples);
    if (tables.table !== null && tables.table !== known?.table) this.#setLattice(tables.table);
  }

  #setCurve(samples: Float32Array): void {
    const gl = this.#gl;
    const rows = Math.ceil(samples.length / curveAcross);
    const padded = new Float32Array(rows * curveAcross);
    padded.set(samples);
    gl.bindTexture(gl.TEXTURE_2D, this.#curve);
    gl.texImage2D(gl.TEXTURE_2D, 0, gl.R32F, curveAcross, rows, 0, gl.RED, gl.FLOAT, padded);
  }

  #setLattice({ size, values }: NonNullable<Tables['table']>): void {
    const gl = this.#gl;
    gl.bindTexture(gl.TEXTURE_3D, this.#lattice);
    // Full floats: half ones would cost a seventh of a code, and the shader filters by itself anyway.
    if (size === this.#nodes) {
      gl.texSubImage3D(gl.TEXTURE_3D, 0, 0, 0, 0, size, size, size, gl.RGB, gl.FLOAT, values);
    } else {
      gl.texImage3D(gl.TEXTURE_3D, 0, gl.RGB32F, size, size, size, 0, gl.RGB, gl.FLOAT, values);
    }
    this.#nodes = size;
  }

  /** Binds the textures to units 1 and 2 and says the numbers. False before the first tables. */
  bind(at: (name: string) => WebGLUniformLocation | null): boolean {
    const gl = this.#gl;
    if (this.#tables === null) return false;
    const { matrix, curve, table, falloffEv } = this.#tables;
    gl.uniform2f(at('falloff'), falloffSteepness(falloffEv), falloffEv < 0 ? 1 : 0);
    gl.activeTexture(gl.TEXTURE1);
    gl.bindTexture(gl.TEXTURE_2D, this.#curve);
    gl.activeTexture(gl.TEXTURE2);
    gl.bindTexture(gl.TEXTURE_3D, this.#lattice);
    // Rows here, columns there.
    gl.uniformMatrix3fv(at('toLook'), true, matrix);
    const { samples, sceneWhite, slopeAtBlack } = curve ?? { samples: [], sceneWhite: 1, slopeAtBlack: 1 };
    gl.uniform4f(at('curveNumbers'), Math.max(0, samples.length - 1), sceneWhite, slopeAtBlack, curveAcross);
    gl.uniform1i(at('nodes'), table?.size ?? 0);
    if (table === null) return true;
    gl.uniform3fv(at('into'), scaleOf(table.into));
    gl.uniform3fv(at('outOf'), scaleOf(table.outOf));
    return true;
  }
}

/** The end of the linear part, and the even scale in stops: where position 0 lies and how far it is to 1. */
function scaleOf(shaper: Shaper): [number, number, number] {
  // The scale is linear in stops, so two places tell it: light at linearEnd lies at 1 / ln 2 stops, black at 0.
  const [zero, one] = [shape(shaper, 0), shape(shaper, shaper.linearEnd)];
  const reach = 1 / Math.LN2 / (one - zero);
  return [shaper.linearEnd, -zero * reach, reach];
}

function plainTexture(gl: WebGL2RenderingContext, target: GLenum): WebGLTexture {
  const texture = gl.createTexture();
  gl.bindTexture(target, texture);
  for (const name of [gl.TEXTURE_MIN_FILTER, gl.TEXTURE_MAG_FILTER]) {
    gl.texParameteri(target, name, gl.NEAREST);
  }
  for (const name of [gl.TEXTURE_WRAP_S, gl.TEXTURE_WRAP_T, gl.TEXTURE_WRAP_R]) {
    gl.texParameteri(target, name, gl.CLAMP_TO_EDGE);
  }
  // One texel: a texture without any would be told as an error, though nothing is read from it.
  if (target === gl.TEXTURE_3D) {
    gl.texImage3D(target, 0, gl.RGB32F, 1, 1, 1, 0, gl.RGB, gl.FLOAT, new Float32Array(3));
  } else {
    gl.texImage2D(target, 0, gl.R32F, 1, 1, 0, gl.RED, gl.FLOAT, new Float32Array(1));
  }
  return texture;
}
