import { enterLabels, guestLabels, pocketLabels } from './link-labels.ts';
import { lookLabels } from './look-labels.ts';
import { clockLabels, slateLabels } from './slate-labels.ts';

/** What each address of the page is called, in a browser's tab and its history. */
const titles = {
  '/': 'Set',
  '/set': 'Set',
  '/in': enterLabels.title,
  '/pocket': pocketLabels.title,
  '/guest': guestLabels.title,
  '/slates': slateLabels.title,
  '/clock': clockLabels.title,
  '/look': lookLabels.title,
} as const;

export type PagePath = keyof typeof titles;

// The keys of the constant above and no others.
export const pagePaths: readonly PagePath[] = Object.keys(titles) as PagePath[];

/** The title of a document at one of the page's addresses: `Pocket - Setside`. */
export function titleOfPage(path: PagePath): string {
  return titleOf(titles[path]);
}

/** The title of a document whose page is called so. */
export function titleOf(page: string): string {
  return `${page} - Setside`;
}
