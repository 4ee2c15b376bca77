/**
 * What a line of the strike check costs if the set is struck all the same, the dearest first. `reshoot`: a picture that is not
 * there, or not as asked; `card`: one that may still lie on a card, so that the card is kept; `word`: somebody's word; `copy`: a
 * second place.
 */
export const strikeCosts = ['reshoot', 'card', 'word', 'copy'] as const;
export type StrikeCost = (typeof strikeCosts)[number];

/** The client's word on a shot. `older`: the picture it was given to is not the one that is chosen now. */
export const agreements = ['given', 'older', 'missing'] as const;
export type Agreement = (typeof agreements)[number];
