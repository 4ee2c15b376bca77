import type { Browser, Page } from 'playwright-core';

const scrolledMs = 3_000;
const stepCssPx = 60;
/** Of the plain page: more than is scrolled over in that time. */
const plainRows = 90;
const plainColumns = 9;

export type ScrollView = { readonly width: number; readonly height: number };

/** Scrolls by a step with each screen; gives the share of screens that were not shown in time, 0..1. */
export function missedWhileScrolling(page: Page, selector: string): Promise<number> {
  return page.evaluate(
    ({ forMs, step, field: selected }) =>
      new Promise<number>((resolve) => {
        const field = document.querySelector(selected);
        if (field === null) return resolve(1);
        field.scrollTop = 0;
        const gaps: number[] = [];
        const begin = performance.now();
        let before = begin;
        const next = (at: number): void => {
          gaps.push(at - before);
          before = at;
          field.scrollTop += step;
          if (at - begin < forMs) requestAnimationFrame(next);
          else {
            const screenMs = 1000 / 60;
            const lost = gaps.reduce((sum, gap) => sum + Math.max(0, Math.round(gap / screenMs) - 1), 0);
            resolve(lost / (gaps.length + lost));
          }
        };
        requestAnimationFrame(next);
      }),
    { forMs: scrolledMs, step: stepCssPx, field: selector },
  );
}

/**
 * What this machine's browser misses on a page that does nothing: as many plain boxes as a sheet has cells, laid out once, no
 * pictures, no script. A machine without a graphics card misses many there too, and no page can miss fewer.
 */
export async function missedOnPlainPage(browser: Browser, viewport: ScrollView): Promise<number> {
  const context = await browser.newContext({ viewport });
  try {
    const page = await context.newPage();
    await page.setContent(plainPage());
    return await missedWhileScrolling(page, '.plain-field');
  } finally {
    await context.close();
  }
}

function plainPage(): string {
  const cell = '<div><i></i><b>Frame 0001</b></div>';
  return `<!doctype html><style>
    body { margin: 20px; background: #767676; font: 14px sans-serif; }
    .plain-field { height: calc(100vh - 160px); margin-top: 120px; overflow-y: scroll; background: #f2f2f2; will-change: transform; }
    .plain-sheet { display: grid; grid-template-columns: repeat(${plainColumns}, 1fr); gap: 12px; padding: 16px; }
    .plain-sheet > div { height: 150px; }
    .plain-sheet i { display: block; height: 124px; background: #8c8479; }
  </style><div class="plain-field"><div class="plain-sheet">${cell.repeat(plainRows * plainColumns)}</div></div>`;
}
