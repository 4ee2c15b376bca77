import { legibleName } from '../base/index.ts';

/** Text out of somebody's document or file name for a terminal or a page: whatever commands those is shown as U+FFFD. */
export function plainText(text: string): string {
  return legibleName(text).replace(commanding, '\ufffd');
}

/** ECMA-48 C0 and C1 controls, and what turns the direction of writing (UAX 9). */
const commanding = /[\p{Cc}\u202a-\u202e\u2066-\u2069]/gu;
