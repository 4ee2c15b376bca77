import { type BenchResult, meetsGoal } from './measure.ts';

/** A page of its own with a plot for each bench: every run, ours and the reference, from zero, and where the goal lies. */
export function reportPage(results: readonly BenchResult[], machine: string): string {
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>Setside: measured</title>
<style>
  body { margin: 2rem auto; max-width: 52rem; padding: 0 1rem; font: 1rem/1.5 "Fira Sans", system-ui, sans-serif; color: #1b1b1b; background: #f2f2f2; }
  h2 { margin: 2.5rem 0 0.2rem; font-size: 1.2rem; }
  p { margin: 0.2rem 0; }
  .small { color: #4d4d4d; font-size: 0.9rem; }
  svg { width: 100%; height: auto; margin-top: 0.6rem; background: #fff; }
  text { font-size: 13px; fill: #1b1b1b; }
</style>
<h1>Measured</h1>
<p class="small">${escapeText(machine)}. Ratios matter; absolute figures are never compared across machines. A circle is one run, a bar the median, the broken line the goal.</p>
${results.map(section).join('\n')}
</html>
`;
}

function section(result: BenchResult): string {
  const { name, unit, ours, reference, ratio, goal, better, note } = result;
  const asked = `${better === 'lower' ? 'at most' : 'at least'} ${goal}`;
  const held = ratio === null ? `Goal: ${asked}` : `Ratio ${ratio.toFixed(2)}; goal: ${asked}`;
  const pair = reference === null ? '' : ` against ${round(reference)}`;
  return `<h2>${escapeText(name)}</h2>
<p>${round(ours)}${pair} ${escapeText(unit)} (medians). ${held}, <b>${meetsGoal(result) ? 'met' : 'not met'}</b>.</p>
<p class="small">${escapeText([...referencePhrase(result), note, ...whenPhrase(result)].join(' '))}</p>
${plot(result)}`;
}

function referencePhrase({ reference, referenceName }: BenchResult): string[] {
  return reference === null ? [] : [`Reference: ${referenceName}.`];
}

/** Each figure has its own: a bench that was not run again is not of the newest code. */
function whenPhrase({ load, commit, date }: BenchResult): string[] {
  const busy = load === undefined ? [] : [`Load when it began: ${load.toFixed(1)}.`];
  const of = commit === undefined ? [] : [`Measured at commit ${commit}, ${date?.slice(0, 10) ?? ''}.`];
  return [...busy, ...of];
}

const width = 720;
const left = 90;
const rowHeight = 34;

/** Two rows of points on one scale that begins at zero; the median is a bar. */
function plot({ runs, unit, ours, reference, goal }: BenchResult): string {
  const rows = [
    { label: 'ours', values: runs.map((run) => run.ours), middle: ours },
    ...(reference === null
      ? []
      : [{ label: 'reference', values: runs.flatMap((run) => run.reference ?? []), middle: reference }]),
  ];
  const goalFigure = goal * (reference ?? 1);
  const most = Math.max(goalFigure, ...rows.flatMap(({ values }) => values)) * 1.1 || 1;
  const x = (value: number): number => left + (value / most) * (width - left - 20);
  const height = rows.length * rowHeight + 40;
  const body = rows.map(({ label, values, middle }, row) => {
    const y = 24 + row * rowHeight;
    const points = values.map(
      (value) => `<circle cx="${x(value).toFixed(1)}" cy="${y}" r="5" fill="none" stroke="#1b1b1b"/>`,
    );
    const bar = `<line x1="${x(middle).toFixed(1)}" x2="${x(middle).toFixed(1)}" y1="${y - 11}" y2="${y + 11}" stroke="#1b1b1b" stroke-width="3"/>`;
    return `<text x="8" y="${y + 4}">${label}</text>${points.join('')}${bar}`;
  });
  const axisY = height - 22;
  const ticks = roundSteps(most).map((value) => {
    return `<text x="${x(value).toFixed(1)}" y="${axisY + 16}" text-anchor="middle">${round(value)}</text>`;
  });
  return `<svg viewBox="0 0 ${width} ${height}" role="img" aria-label="Every run, ${escapeText(unit)}">
<line x1="${left}" x2="${width - 20}" y1="${axisY}" y2="${axisY}" stroke="#8a8a8a"/>
<line x1="${x(goalFigure).toFixed(1)}" x2="${x(goalFigure).toFixed(1)}" y1="6" y2="${axisY}" stroke="#1b1b1b" stroke-dasharray="2 4"/>
${body.join('\n')}
${ticks.join('')}
</svg>`;
}

/** From zero in three to six steps of 1, 2 or 5 times a power of ten. */
function roundSteps(most: number): number[] {
  const power = 10 ** Math.floor(Math.log10(most / 3));
  const step = [5, 2, 1].map((digit) => digit * power).find((size) => most / size >= 3) ?? power;
  return Array.from({ length: Math.floor(most / step) + 1 }, (_, index) => index * step);
}

function round(value: number): string {
  return value >= 100 ? value.toFixed(0) : String(Number(value.toPrecision(3)));
}

function escapeText(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
}
