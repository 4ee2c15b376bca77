import type { CopySpace } from '../facts/index.ts';

/** The screen that faces the client, and the mask of a delivery over the picture. */
export const clientLabels = {
  title: 'Client screen',
  nothing: 'The first picture appears here.',
  lost: 'The line to the station is down. The picture stays.',
  follow: 'Follow the newest',
  shape: 'Crop',
  deliveries: 'The job’s deliveries',
  shapes: 'Shapes',
  cutsNothing: (title: string): string => `${title}: whole picture`,
  wholePicture: 'whole picture',
  copySpace: 'Copy space',
  noCopySpace: 'none by hand',
  copySpaces: { top: 'above', bottom: 'below', left: 'left', right: 'right' },
  toSet: 'Set page',
  mask: 'Delivery mask',
  maskOff: 'Mask off',
  keyMask: 'what the delivery keeps of the picture',
  noDelivery: 'The job names no delivery: choose a shape.',
} as const;

export const sideWords = {
  top: 'along the top',
  bottom: 'along the bottom',
  left: 'on the left',
  right: 'on the right',
} as const;

/** A part that is kept free for words. */
export function copySpaceWords({ side, sharePercent }: CopySpace): string {
  const of = side === 'top' || side === 'bottom' ? 'height' : 'width';
  return `${sideWords[side]}, ${Math.round(sharePercent)} % of the ${of}`;
}

/** What a mask shows, for who does not see it. `kept`: shares of the picture's sides; null for all of it. */
export function maskPhrase(
  kept: { readonly width: number; readonly height: number } | null,
  copySpace: CopySpace | null,
): string {
  const part =
    kept === null
      ? 'All of the picture is kept.'
      : `Kept: ${sharePhrase(kept.width, 'width')}, ${sharePhrase(kept.height, 'height')}.`;
  return copySpace === null ? part : `${part} Words ${copySpaceWords(copySpace)}.`;
}

function sharePhrase(share: number, name: string): string {
  const percent = Math.round(share * 100);
  return share > 0.999 ? `the whole ${name}` : `${percent} % of the ${name}`;
}
