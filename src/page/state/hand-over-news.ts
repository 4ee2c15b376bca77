import type { BagWork, CardCheck, DeliveryState, PaperUnderWay, Verification } from '../../contract/index.ts';

/** What the station tells of deliveries, of the card, of archive packages, and of reading everything again. Null where it is not known. */
export interface HandOverNews {
  /** The newest first. */
  readonly deliveries: readonly DeliveryState[] | null;
  /** The last check of a card; told on the station's own computer only. */
  readonly card: CardCheck | null;
  /** The archive package that is at work, or was last; told as the card is. */
  readonly bag: BagWork | null;
  readonly verification: Verification | null;
  /** Contact sheets that are being drawn, by the code of their job; of others nothing is known. */
  readonly papers: ReadonlyMap<string, readonly PaperUnderWay[]>;
}

export const noHandOverNews: HandOverNews = {
  deliveries: null,
  card: null,
  bag: null,
  verification: null,
  papers: new Map(),
};

/** Changes with each card whose check the strike check may go by. */
export function cardSeen({ card }: HandOverNews): string {
  return card?.journalled === true ? card.id : '';
}

/** A delivery as it is now: in the place of what was known of it, or as the newest. */
export function withDelivery(news: HandOverNews, delivery: DeliveryState): HandOverNews {
  const known = news.deliveries ?? [];
  const isKnown = known.some(({ id }) => id === delivery.id);
  const deliveries = isKnown
    ? known.map((each) => (each.id === delivery.id ? delivery : each))
    : [delivery, ...known];
  return { ...news, deliveries };
}
