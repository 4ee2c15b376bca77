import type { ClientScreen, Job } from '../../contract/index.ts';
import { planSize, type Specification, specificationNamed } from '../../deliver/index.ts';
import { cropOf, type PartShares, type SizeImagePx } from '../viewport/index.ts';

export type Crop = ClientScreen['crop'];

/** What can be laid over the client's picture, by a value that stands in a list of choices; the empty one is nothing. */
export interface CropChoice {
  readonly value: string;
  readonly crop: Crop;
  /** Title of the specification; null for a shape. */
  readonly title: string | null;
}

/** Shapes of pictures that are asked for often, width by height; upright ones are the same turned. */
const sides = [
  [1, 1],
  [5, 4],
  [4, 5],
  [4, 3],
  [3, 4],
  [3, 2],
  [2, 3],
  [16, 9],
  [9, 16],
] as const;

export const shapeChoices: readonly CropChoice[] = sides.map(([width, height]) => ({
  value: `${width} : ${height}`,
  crop: { width, height },
  title: null,
}));

/** Of the specifications that a job names, those that are known; a name that nobody knows cuts nothing. */
export function deliveryChoices(job: Pick<Job, 'deliveries'> | null): readonly CropChoice[] {
  const found = (job?.deliveries ?? []).flatMap((name) => specificationNamed(name) ?? []);
  const byName = new Map(found.map(({ name, specification }) => [name, specification.title]));
  return [...byName].map(([name, title]) => ({ value: `delivery ${name}`, crop: { delivery: name }, title }));
}

/** The value by which a crop stands in the list of choices. */
export function cropValue(crop: Crop): string {
  if (crop === null) return '';
  return 'delivery' in crop ? `delivery ${crop.delivery}` : `${crop.width} : ${crop.height}`;
}

/** What of the picture is delivered, shares of it; null for all of it, and for a specification that nobody knows. */
export function cropIn(crop: Crop, picture: SizeImagePx): PartShares | null {
  if (crop === null) return null;
  if (!('delivery' in crop)) return cropOf(picture, crop.width / crop.height);
  const specification = specificationNamed(crop.delivery)?.specification;
  return specification === undefined ? null : cropOfDelivery(specification, picture);
}

/**
 * What `planSize` would cut out, so that the client sees what they will get; null where that is all of the picture. What is put
 * around a picture takes nothing away from it.
 */
export function cropOfDelivery(
  { size, enlarge, background }: Pick<Specification, 'size' | 'enlarge' | 'background'>,
  picture: SizeImagePx,
): PartShares | null {
  const mayExtend = background.kind === 'white' && background.extend;
  const { window } = planSize(picture, null, { size, enlarge, mayExtend });
  const left = Math.max(0, window.leftPx / picture.widthPx);
  const top = Math.max(0, window.topPx / picture.heightPx);
  const right = Math.min(1, (window.leftPx + window.widthPx) / picture.widthPx);
  const bottom = Math.min(1, (window.topPx + window.heightPx) / picture.heightPx);
  if (left === 0 && top === 0 && right === 1 && bottom === 1) return null;
  return { left, top, width: right - left, height: bottom - top };
}
