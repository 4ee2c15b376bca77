import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import type { Chance } from './uploads.ts';

const child = join(import.meta.dirname, 'fold-child.mjs');

/** Has a process give back what `incoming/` holds twice, and kills it in the middle. Gives how many files it said were folded. */
export async function foldAndKill(home: string, chance: Chance): Promise<number> {
  const folding = spawn(process.execPath, [child, home], { stdio: ['ignore', 'pipe', 'inherit'] });
  let said = '';
  folding.stdout.setEncoding('utf8');
  folding.stdout.on('data', (text: string) => {
    said += text;
  });
  const ended = once(folding, 'exit');
  await Promise.race([once(folding.stdout, 'data'), ended]);
  await new Promise((resolve) => setTimeout(resolve, 40 * chance()));
  folding.kill('SIGKILL');
  await ended;
  return [...said.matchAll(/folded (\d+)/g)].reduce((sum, [, count]) => sum + Number(count), 0);
}
