/** Normally distributed numbers, always the same for a start (Box and Muller 1958, on a linear congruential generator). */
export function normalNumbers(start: number): () => number {
  let state = start >>> 0;
  const uniform = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}
