/** Everything that stands, hangs and shines in the virtual studio. Millimetres; x right, y up, z to the camera. */
import type { Grid } from './grid.ts';
import type { Slab } from './slab.ts';
import type { Solid } from './solid.ts';

/** Things are numbered: solids from 0, slabs after them. */
export interface Stage {
  readonly solids: readonly Solid[];
  /** Solids that stand close together are passed by at once; together the clusters hold every solid, in order. */
  readonly clusters: readonly Cluster[];
  readonly slabs: readonly Slab[];
  /** A sphere about each thing: x, y, z, radius; mm. */
  readonly spheres: Float64Array;
  readonly glazes: readonly Glaze[];
  readonly stuffs: readonly Stuff[];
  readonly card: Card | null;
  readonly backdrop: Backdrop;
  readonly panels: readonly Panel[];
  /** Unit, from the set towards the key light. */
  readonly keyWay: Float64Array;
  readonly camera: Camera;
  /** Light on the paper, three grids (red, green, blue) over (x, way along the paper); null while they are made. */
  readonly paperLight: readonly Grid[] | null;
  /** Light that comes from nowhere in particular: walls and ceiling of a dim room. */
  readonly roomLight: Float64Array;
  /** Above 0: everything is in this light and no other, as a copy stand makes it nearly. */
  readonly evenLight: number;
  readonly seed: number;
}

/** Solids `from` up to and without `to`, and the box in the world that holds them: minX, minY, minZ, maxX, maxY, maxZ. */
export interface Cluster {
  readonly from: number;
  readonly to: number;
  readonly box: Float64Array;
}

/** Paper that runs level, bends up and hangs: no horizon. */
export interface Backdrop {
  readonly bendZ: number;
  readonly bendRadius: number;
  /** The table ends, and what lies beyond is dim, or glazes would mirror a bright horizon: from here to the front and sides light fades. */
  readonly frontMm: number;
  readonly sideMm: number;
  readonly fadeMm: number;
  readonly albedo: Float64Array;
}

/** A flat rectangle that shines from one side: a softbox or a white card. */
export interface Panel {
  readonly centre: Float64Array;
  /** Half the width and half the height, as vectors. */
  readonly halfU: Float64Array;
  readonly halfV: Float64Array;
  /** Unit, on the shining side. */
  readonly normal: Float64Array;
  readonly radiance: Float64Array;
  /** How much darker the corners are than the middle, 0 … 1. */
  readonly hotspot: number;
  /** Rays to it per shaded point, a square number. */
  readonly samples: number;
}

export interface Camera {
  readonly eye: Float64Array;
  /** Direction through the frame's centre, and one sensor pixel to the right and down, all in mm: the sensor as far before the lens as it lies behind it. */
  readonly forward: Float64Array;
  readonly right: Float64Array;
  readonly down: Float64Array;
  /** Centre of the frame, pixels of the rendering. */
  readonly centreX: number;
  readonly centreY: number;
  readonly pixelMm: number;
  /** A thin lens: focal length, diameter of its opening, distance of its plane of focus along the axis. */
  readonly lens: { readonly focalMm: number; readonly apertureMm: number; readonly focusMm: number };
}

/** The 24-patch target: a flat box. */
export interface Card {
  readonly centre: Float64Array;
  /** Unit vectors along its rows, up its columns, and out of its face. */
  readonly across: Float64Array;
  readonly up: Float64Array;
  readonly face: Float64Array;
  readonly halfWidth: number;
  readonly halfHeight: number;
  readonly halfThickness: number;
  readonly patchPitch: number;
  readonly patchSide: number;
  /** 24 linear RGB reflectances, row by row. */
  readonly patches: Float64Array;
  readonly border: Float64Array;
}

/** The coat of one piece. Reflectances are linear Rec.2020. */
export interface Glaze {
  readonly outside: Float64Array;
  readonly inside: Float64Array;
  /** What a reflection or a bounce sees of the whole piece. */
  readonly mean: Float64Array;
  /** Colour the glaze breaks to where it runs thin: rims, edges. */
  readonly thin: Float64Array;
  readonly clay: Float64Array;
  readonly speck: Float64Array;
  /** Specks per cubic cell of 3 mm, 0 … 1. */
  readonly specks: number;
  /** Height below which the outside is bare clay, mm. */
  readonly glazeFrom: number;
  /** Reflection of the glazed surface, 0 matt … 1 a full dielectric coat. */
  readonly gloss: number;
  /** Blur of that reflection, radians. */
  readonly roughness: number;
  /** Depth of the throwing rings as a slope, and their distance, mm. */
  readonly rings: number;
  readonly ringPitch: number;
  /** How uneven the glaze's skin is, as a slope. */
  readonly skin: number;
  /** How strongly it runs: streaks and a darker pool above its lower edge, 0 … 1. */
  readonly run: number;
  readonly pool: Float64Array;
  /** Share of the profile's length, counted from the lip, over which the rim is thin. */
  readonly rim: number;
  /** Height up to which a second colour (`dip`) covers the outside, mm; 0 none. */
  readonly dipFrom: number;
  readonly dip: Float64Array;
}

export const stuffPlain = 0;
export const stuffWood = 1;
export const stuffLinen = 2;
export const stuffStripes = 3;
export const stuffLeaf = 4;
export const stuffCrumb = 5;

/** What a thing that is no ware is made of. Reflectances are linear Rec.2020. */
export interface Stuff {
  /** One of the numbers above. */
  readonly texture: number;
  readonly colour: Float64Array;
  /** Grain of the wood, ink of the print, veins of the leaf. */
  readonly second: Float64Array;
  readonly mean: Float64Array;
  /** 0 matt … 1 a full coat. */
  readonly gloss: number;
  /** Blur of its reflection, radians. */
  readonly roughness: number;
  /** 1: all light is mirrored in `colour` and none scattered. */
  readonly metal: number;
}
