/** The frames one has in hand: what a mark or a comparison is about. */
export interface Hand {
  readonly ids: ReadonlySet<string>;
  /** Where the keys are. */
  readonly at: string | null;
  /** They are at its place among the chosen, above where it was taken. */
  readonly chosen: boolean;
  /** Where a range begins. */
  readonly from: string | null;
  /** All was let go: the keys are still there, and nothing is in hand until they go on. */
  readonly letGo: boolean;
}

/** The keys go along: `chosen`, to its place among the chosen. */
interface At {
  readonly id: string;
  readonly chosen?: boolean;
}

export type HandAction =
  /** This one and no other. */
  | ({ readonly type: 'take' } & At)
  /** This one too, or no longer. */
  | ({ readonly type: 'add' } & At)
  /** All from where the range begins up to this one, as they lie on the sheet. */
  | ({ readonly type: 'reach'; readonly lying: readonly string[] } & At)
  /** The keys go there; what is in hand stays. */
  | ({ readonly type: 'go' } & At)
  | { readonly type: 'all'; readonly lying: readonly string[] }
  | { readonly type: 'empty' };

export const emptyHand: Hand = { ids: new Set(), at: null, chosen: false, from: null, letGo: false };

export function reduceHand(hand: Hand, action: HandAction): Hand {
  switch (action.type) {
    case 'take':
      return { ids: new Set([action.id]), ...at(action), from: action.id, letGo: false };
    case 'add': {
      const ids = new Set(hand.ids);
      if (!ids.delete(action.id)) ids.add(action.id);
      return { ids, ...at(action), from: action.id, letGo: false };
    }
    case 'reach': {
      const { lying, id } = action;
      const from = hand.from ?? hand.at ?? id;
      const [one, other] = [lying.indexOf(from), lying.indexOf(id)];
      if (one < 0 || other < 0) return { ids: new Set([id]), ...at(action), from: id, letGo: false };
      return {
        ids: new Set(lying.slice(Math.min(one, other), Math.max(one, other) + 1)),
        ...at(action),
        from,
        letGo: false,
      };
    }
    case 'go':
      return hand.at === action.id && hand.chosen === (action.chosen ?? false)
        ? hand
        : { ...hand, ...at(action), letGo: false };
    case 'all':
      return { ...hand, ids: new Set(action.lying), letGo: false };
    case 'empty':
      return { ...hand, ids: new Set(), letGo: true };
  }
}

function at({ id, chosen = false }: At): Pick<Hand, 'at' | 'chosen'> {
  return { at: id, chosen };
}

/** In hand, or where nothing is, the one that the keys are at unless it was let go; only what lies on the sheet. */
export function handled(hand: Hand, lying: ReadonlySet<string>): string[] {
  const ids = [...hand.ids].filter((id) => lying.has(id));
  if (ids.length > 0) return ids;
  return !hand.letGo && hand.at !== null && lying.has(hand.at) ? [hand.at] : [];
}
