export interface Wish {
  /** Where the centre would like to be. */
  readonly wished: number;
  readonly size: number;
}

interface Block {
  sum: number;
  count: number;
}

/**
 * Centres of boxes in the given order, none nearer to the next than `spacing`, with the least sum of squared moves.
 * Taking away the room that the boxes before need makes it an isotonic regression, solved exactly by pooling adjacent
 * violators: M. Ayer et al., "An Empirical Distribution Function for Sampling with Incomplete Information",
 * Ann. Math. Statist. 26 (1955), doi:10.1214/aoms/1177728423.
 */
export function leastMove(wishes: readonly Wish[], spacing: number): number[] {
  const needs = roomBefore(wishes, spacing);
  const blocks: Block[] = [];
  wishes.forEach((wish, index) => {
    blocks.push({ sum: wish.wished - (needs[index] ?? 0), count: 1 });
    poolLast(blocks);
  });
  const eased = blocks.flatMap((block) => new Array<number>(block.count).fill(block.sum / block.count));
  return eased.map((value, index) => value + (needs[index] ?? 0));
}

/** How far each centre must at least lie behind the first one's. */
function roomBefore(wishes: readonly Wish[], spacing: number): number[] {
  let room = 0;
  return wishes.map((wish, index) => {
    const before = wishes[index - 1];
    if (before !== undefined) room += (before.size + wish.size) / 2 + spacing;
    return room;
  });
}

function poolLast(blocks: Block[]): void {
  for (;;) {
    const last = blocks.at(-1);
    const before = blocks.at(-2);
    if (last === undefined || before === undefined) return;
    if (before.sum / before.count <= last.sum / last.count) return;
    before.sum += last.sum;
    before.count += last.count;
    blocks.pop();
  }
}
