import type { Mark } from './mark.ts';

/**
 * Frames of one shot (given as they were taken) in the one order that counts for it: heroes, then selects, each as somebody put
 * them (`order`, ids) and behind those that were put nowhere; then all others as they were taken. What the client is shown, what
 * is printed and what is handed over lie so.
 */
export function inChosenOrder<F extends { readonly id: string; readonly mark: Mark }>(
  frames: readonly F[],
  order: readonly string[],
): F[] {
  const place = new Map(order.map((id, index) => [id, index]));
  const placeOf = ({ id }: F): number => place.get(id) ?? order.length;
  const marked = (mark: Mark): F[] =>
    frames.filter((frame) => frame.mark === mark).sort((one, other) => placeOf(one) - placeOf(other));
  const others = frames.filter(({ mark }) => mark !== 'hero' && mark !== 'select');
  return [...marked('hero'), ...marked('select'), ...others];
}
