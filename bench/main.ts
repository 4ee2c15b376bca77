import { execFileSync } from 'node:child_process';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { availableParallelism, cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { firstView } from './first-view.ts';
import { idle } from './idle.ts';
import { judge } from './judge.ts';
import { type Bench, type BenchResult, meetsGoal } from './measure.ts';
import { receive } from './receive.ts';
import { receiveMany } from './receive-many.ts';
import { receivePaced } from './receive-paced.ts';
import { receiveSftp } from './receive-sftp.ts';
import { receiveTls } from './receive-tls.ts';
import { reportPage } from './report.ts';
import { root } from './station.ts';
import { toScreen } from './to-screen.ts';

const benches: readonly Bench[] = [
  firstView,
  toScreen,
  judge,
  receive,
  receiveTls,
  receiveSftp,
  receiveMany,
  receivePaced,
  idle,
];
const results = join(root, 'bench/results');

const [roundsFlag, ...rest] = process.argv.slice(2).filter((word) => word.startsWith('--rounds='));
const names = process.argv.slice(2).filter((word) => !word.startsWith('--'));
const rounds = Number(roundsFlag?.slice('--rounds='.length) ?? 5);
const unknown = names.filter((name) => !benches.some((bench) => bench.name === name));
if (unknown.length > 0 || rest.length > 0 || !(rounds >= 1 && rounds <= 20)) {
  console.error(`usage: npm run bench -- [--rounds=N] [${benches.map(({ name }) => name).join('|')}] …`);
  process.exit(2);
}

const measured: BenchResult[] = [];
for (const bench of benches.filter(({ name }) => names.length === 0 || names.includes(name))) {
  const load = loadavg()[0] ?? 0;
  console.log(`${bench.name} (load ${load.toFixed(1)}) …`);
  measured.push({ ...(await bench.measure(rounds, (line) => console.log(line))), load });
}
printTable(measured);
await keep(measured);

function printTable(list: readonly BenchResult[]): void {
  console.log('');
  for (const result of list) {
    const { name, ours, reference, ratio, goal, better, unit } = result;
    const pair = reference === null ? figure(ours) : `${figure(ours)} against ${figure(reference)}`;
    const held = `${ratio === null ? '' : `ratio ${ratio.toFixed(2)}, `}goal ${better === 'lower' ? '≤' : '≥'} ${goal}`;
    console.log(`${name.padEnd(12)} ${pair} ${unit}; ${held}: ${meetsGoal(result) ? 'met' : 'not met'}`);
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
  const commit = execFileSync('git', ['rev-parse', '--short', 'HEAD'], { cwd: root }).toString().trim();
  await writeFile(
    join(results, 'report.html'),
    reportPage(all, { machine, commit, date: new Date().toISOString() }),
  );
  console.log(`\nbench/results/latest.json and report.html are written.`);
}
