/** Does the work on every item, at most `lanes` at a time, in their order. Rejects as the first that does. */
export async function inLanes<Item>(
  items: readonly Item[],
  lanes: number,
  work: (item: Item) => Promise<void>,
): Promise<void> {
  let next = 0;
  const lane = async (): Promise<void> => {
    for (let index = next++; index < items.length; index = next++) {
      const item = items[index];
      if (item !== undefined) await work(item);
    }
  };
  await Promise.all(Array.from({ length: Math.min(lanes, items.length) }, lane));
}
