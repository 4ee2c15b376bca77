import type { ReadAgainEnd, VerificationNote, VerificationRound, Verified } from '../../keep/index.ts';

/** A reading that begins. */
export function freshRound(beganMs: number): VerificationRound {
  const nothing = { doneFiles: 0, files: 0, doneBytes: 0, bytes: 0, originals: [], copies: [] };
  return { beganMs, pace: 'slow', after: null, seq: 0, ...nothing };
}

/** What is known to be bad with what a reading has found so far: what it has not come to yet stands. */
export function withFound(known: Verified, round: VerificationRound): Verified {
  const isFound = new Set(round.originals.map(({ arrival }) => arrival));
  const originals = [...known.originals.filter(({ arrival }) => !isFound.has(arrival)), ...round.originals];
  const places = [
    ...new Set([...known.places.map(({ place }) => place), ...round.copies.map((copy) => copy.place)]),
  ];
  return {
    beganMs: Math.max(known.beganMs, round.beganMs),
    originals,
    places: places.map((place) => {
      const before = known.places.find((each) => each.place === place);
      const found = round.copies.filter((copy) => copy.place === place).map(({ arrival }) => arrival);
      return {
        place,
        seq: round.seq,
        bad: [...new Set([...(before?.bad ?? []), ...found])],
        journalIsBad: before?.journalIsBad ?? false,
      };
    }),
  };
}

/** What is known to be bad once all was read: what was read and is good is forgotten. Of a place that was away, what was known stands. */
export function allFound(
  known: Verified | null,
  round: VerificationRound,
  { seq, places }: ReadAgainEnd,
): Verified {
  return {
    beganMs: round.beganMs,
    originals: round.originals,
    places: places.flatMap(({ place, wasRead, journalIsBad }) =>
      wasRead
        ? [
            {
              place,
              seq,
              bad: round.copies.filter((copy) => copy.place === place).map(({ arrival }) => arrival),
              journalIsBad,
            },
          ]
        : (known?.places.filter((each) => each.place === place) ?? []),
    ),
  };
}

/** A note in which these originals are bad no more; `ofLast` of them are among those that the last reading found. */
export function noteWithout(
  note: VerificationNote,
  arrivals: ReadonlySet<string>,
  ofLast: number,
): VerificationNote {
  const { round, last } = note;
  return {
    ...note,
    round:
      round === null
        ? null
        : { ...round, originals: round.originals.filter(({ arrival }) => !arrivals.has(arrival)) },
    last: last === null ? null : { ...last, badOriginals: Math.max(0, last.badOriginals - ofLast) },
  };
}
