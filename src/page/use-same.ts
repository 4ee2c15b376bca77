import { useRef } from 'react';

/** The list that was there before, where the new one holds the same in the same order: what hangs on it rests. */
export function useSame<T>(list: readonly T[]): readonly T[] {
  const before = useRef(list);
  const had = before.current;
  if (had !== list && (had.length !== list.length || list.some((each, index) => each !== had[index])))
    before.current = list;
  return before.current;
}
