import { type RefObject, useLayoutEffect, useState } from 'react';

/**
 * Makes a text fit into its element: sets `data-fit` to the first of the levels 0, 1 … `levels` at which nothing is cut
 * off, as the style sheet makes them smaller. Looked at again with every new text, when the type it is set in has come
 * (it comes after the first words), and whenever the element changes its size or the one of class `within` that holds it;
 * that one must have a size of its own.
 * @returns whether something is cut off even at the last level.
 */
export function useFit(
  element: RefObject<HTMLElement | null>,
  text: string,
  within: string,
  levels: number,
): boolean {
  const [cut, setCut] = useState(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another text is to be fitted anew
  useLayoutEffect(() => {
    const own = element.current;
    const holder = own?.closest(within);
    if (own === null || holder == null) return;
    const adjust = (): void => {
      for (let level = 0; level <= levels; level += 1) {
        own.dataset.fit = String(level);
        if (!isCut(own)) break;
      }
      setCut(isCut(own));
    };
    adjust();
    const observer = new ResizeObserver(adjust);
    observer.observe(holder);
    // Something beside it may come and take its room while the holder stays as it is.
    observer.observe(own);
    document.fonts.addEventListener('loadingdone', adjust);
    return () => {
      observer.disconnect();
      document.fonts.removeEventListener('loadingdone', adjust);
    };
  }, [element, text, within, levels]);
  return cut;
}

/** A line's descenders may hang out of its box by a fraction of a pixel. */
function isCut({ scrollHeight, clientHeight, scrollWidth, clientWidth }: HTMLElement): boolean {
  return scrollHeight > clientHeight + 1 || scrollWidth > clientWidth + 1;
}
