import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

/** WCAG 2.0 to 2.2, levels A and AA, as axe-core tags its rules, and what it calls best practice. */
const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** What axe-core finds against a page, each with where it stands. */
export async function axeFindings(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).withTags(tags).analyze();
  return violations.flatMap((rule) => rule.nodes.map((node) => `${rule.id}: ${node.html.slice(0, 120)}`));
}
