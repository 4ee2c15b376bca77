import { sheetLabels } from './camera-sheet-labels.ts';
import type { SheetAddress, SheetStation, SheetWayIn } from './camera-sheet-shapes.ts';

/**
 * Cameras are given IPv4 addresses of the local network; others only where there is no such, and none where every
 * camera would be shut out there. One beside these networks is left out while there is another.
 */
export function cameraAddresses({
  addresses,
  doors,
}: Pick<SheetStation, 'addresses' | 'doors'>): readonly string[] {
  if (doors.some(({ trouble }) => trouble?.code === 'line.no-private-address')) return [];
  const four = addresses.filter(({ family }) => family === 'IPv4');
  const local = four.filter((address) => address.private);
  const best = local.length > 0 ? local : four.length > 0 ? four : addresses;
  const near = best.filter(({ beside }) => !beside);
  return (near.length > 0 ? near : best).map(({ address }) => address);
}

/** Those that a camera may be given, its own first; all, where that is not known. */
export function addressesIn(
  addresses: readonly SheetAddress[],
  { enter = null, mayEnter = [] }: SheetWayIn,
): readonly SheetAddress[] {
  const isFirst = ({ address }: SheetAddress): boolean => address === enter;
  const others = addresses.filter((each) => !isFirst(each));
  const near = others.filter(({ address }) => mayEnter.includes(address));
  // The camera is there, so nothing of this address is beside it.
  const first = addresses.filter(isFirst).map((each) => ({ ...each, beside: false }));
  return [...first, ...(near.length + first.length > 0 && mayEnter.length > 0 ? near : others)];
}

/** What stands under the address that is entered: the others, and the name. */
export function addressNote(others: readonly string[], name: string | null): string | null {
  const notes = [
    ...(others.length === 0 ? [] : [sheetLabels.or(others.join(', '))]),
    ...(name === null ? [] : [sheetLabels.orName(name)]),
  ];
  return notes.length === 0 ? null : notes.join('; ');
}
