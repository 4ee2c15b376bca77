import { execFileSync } from 'node:child_process';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { availableParallelism, cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { developFull, developMany } from './develop.ts';
import { firstView } from './first-view.ts';
import { grow } from './grow.ts';
import { idle } from './idle.ts';
import { judge } from './judge.ts';
import { mark20k } from './mark-20k.ts';
import { type Bench, type BenchResult, meetsGoal } from './measure.ts';
import { open20k } from './open-20k.ts';
import { receive, receiveUnhashed } from './receive.ts';
import { receiveMany } from './receive-many.ts';
import { receivePaced } from './receive-paced.ts';
import { receiveSftp } from './receive-sftp.ts';
import { receiveTls } from './receive-tls.ts';
import { reportPage } from './report.ts';
import { root } from './station.ts';
import { strike20k } from './strike-20k.ts';
import { toScreen } from './to-screen.ts';

const benches: readonly Bench[] = [
  firstView,
  toScreen,
  developFull,
  developMany,
  judge,
  receive,
  receiveUnhashed,
  receiveTls,
  receiveSftp,
  receiveMany,
  receivePaced,
  grow,
  open20k,
  mark20k,
  strike20k,
  idle,
];
const results = join(root, 'bench/results');

const wanted = readWishes(process.argv.slice(2));
if (wanted === 'help' || wanted === 'not understood') {
  (wanted === 'help' ? console.log : console.error)(usage());
  process.exit(wanted === 'help' ? 0 : 2);
}
const { names, rounds } = wanted;

const measured: BenchResult[] = [];
for (const bench of benches.filter(({ name }) => names.length === 0 || names.includes(name))) {
  const load = loadavg()[0] ?? 0;
  console.log(`${bench.name} (load ${load.toFixed(1)}) …`);
  const result = await bench.measure(rounds, (line) => console.log(line));
  measured.push({ ...result, load, commit: commitNow(), date: new Date().toISOString() });
}
printTable(measured);
await keep(measured);

interface Wishes {
  /** None for all. */
  readonly names: readonly string[];
  readonly rounds: number;
}

/** What is to be measured. Nothing is measured on a word that is not understood: it would take many minutes. */
function readWishes(words: readonly string[]): Wishes | 'help' | 'not understood' {
  if (words.some((word) => word === '--help' || word === '-h')) return 'help';
  let rounds = 5;
  const names: string[] = [];
  for (const word of words) {
    const [, figure] = /^--rounds=(\d+)$/.exec(word) ?? [];
    if (figure !== undefined) rounds = Number(figure);
    else if (benches.some(({ name }) => name === word)) names.push(word);
    else return 'not understood';
  }
  return rounds >= 1 && rounds <= 20 ? { names, rounds } : 'not understood';
}

function usage(): string {
  const list = benches.map(({ name, about }) => `  ${name.padEnd(16)} ${about}`).join('\n');
  return `Usage: npm run bench -- [--rounds=N] [NAME…]

Measures ours and a reference side by side, N pairs of each (1 to 20, default 5), all or those named. Takes some
minutes for each name; other work on the machine spoils the figures.

${list}

Writes bench/results/latest.json and report.html. Figures that are not measured now stay as they were.`;
}

function printTable(list: readonly BenchResult[]): void {
  console.log('');
  for (const result of list) {
    const { name, ours, reference, ratio, goal, better, unit } = result;
    const pair = reference === null ? figure(ours) : `${figure(ours)} against ${figure(reference)}`;
    const held = `${ratio === null ? '' : `ratio ${ratio.toFixed(2)}, `}goal ${better === 'lower' ? '≤' : '≥'} ${goal}`;
    console.log(`${name.padEnd(16)} ${pair} ${unit}; ${held}: ${meetsGoal(result) ? 'met' : 'not met'}`);
  }
}

function figure(value: number): string {
  return value >= 100 ? value.toFixed(0) : value.toPrecision(3);
}

/** Figures of benches that were not run now stay as they were measured last. */
async function keep(list: readonly BenchResult[]): Promise<void> {
  await mkdir(results, { recursive: true });
  const file = join(results, 'latest.json');
  const before: BenchResult[] = JSON.parse(await readFile(file, 'utf8').catch(() => '[]'));
  const all = benches.flatMap(({ name }) => {
    const result = list.find((entry) => entry.name === name) ?? before.find((entry) => entry.name === name);
    return result === undefined ? [] : [result];
  });
  await writeFile(file, `${JSON.stringify(all, null, 2)}\n`);
  const machine = `${cpus()[0]?.model ?? 'unknown processor'}, ${availableParallelism()} cores, Node ${process.version}`;
  await writeFile(join(results, 'report.html'), reportPage(all, machine));
  console.log(`\nbench/results/latest.json and report.html are written.`);
}

function commitNow(): string {
  return execFileSync('git', ['rev-parse', '--short', 'HEAD'], { cwd: root }).toString().trim();
}
