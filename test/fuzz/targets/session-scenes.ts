/**
 * What an input of the session's target is made of: scenes, each a byte that chooses the act and one that says how.
 */
export const act = {
  bytes: 0,
  line: 1,
  answer: 2,
  dataComes: 3,
  later: 4,
  ends: 5,
  lost: 6,
  stops: 7,
  foreign: 8,
} as const;
export const actCount = 9;

export type Scene = readonly number[];
export const play = (...scenes: readonly Scene[]): Uint8Array => Uint8Array.from(scenes.flat());
export const says = (line: string): Scene => {
  const bytes = new TextEncoder().encode(`${line}\r\n`);
  return [act.bytes, bytes.length, ...bytes];
};

/** Answers to so many questions, each the kindest. */
export const answered = (questions: number): Scene => Array(questions).fill([act.answer, 0]).flat();
export const logIn = [...says('USER a'), ...says('PASS b'), ...answered(1)];
/** An upload whose bytes end in this way and that comes out in that. */
export const upload = (end: number, outcome: number): Scene => [
  ...says('PASV'),
  ...answered(1),
  ...[act.dataComes, 0],
  ...says('STOR x'),
  ...answered(3),
  ...[act.answer, end, act.answer, outcome],
];
