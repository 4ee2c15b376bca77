import type { DeliveryState } from '../../contract/index.ts';

/**
 * Which deliveries are seen at once, `deliveries` being the newest first: whatever goes on or waits, and the one that was begun last,
 * so that its outcome is seen where its progress was. A week of deliveries would else push down what comes after them.
 */
export function foldedAway<T extends Pick<DeliveryState, 'state'>>(
  deliveries: readonly T[],
): { readonly shown: readonly T[]; readonly folded: readonly T[] } {
  const isShown = ({ state }: T, index: number): boolean =>
    index === 0 || state === 'running' || state === 'paused';
  return {
    shown: deliveries.filter(isShown),
    folded: deliveries.filter((each, index) => !isShown(each, index)),
  };
}
