import { createElement, Fragment, type ReactNode } from 'react';

/** The name of an option of the command line, as sentences have it: two hyphens and a word. */
const option = /(--[a-z]+(?:-[a-z]+)*)/;

/** A sentence in which no name of an option is broken over two lines: a browser may break behind each hyphen. */
export function PlainWords({ text }: { readonly text: string }): ReactNode {
  return createElement(Fragment, null, ...text.split(option).map(wordsOrName));
}

/** Split at a group gives text and names by turns. */
function wordsOrName(part: string, index: number): ReactNode {
  return index % 2 === 0 ? part : <span className="option-name">{part}</span>;
}
