import type { ClientScreen, Job } from '../../contract/index.ts';
import { specificationNamed } from '../../deliver/index.ts';

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
