import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { SetsideError } from '../base/index.ts';
import { wordsOfOpening } from '../line/index.ts';
import { printLine } from './output.ts';

/**
 * Shows the lines, asks, and runs them one after the other without a shell; false where there are none or the answer is
 * not yes. With `json` all of it goes to standard error. Rejects `command-failed`.
 */
export async function openFirewall(lines: readonly string[], json: boolean): Promise<boolean> {
  const known = lines.flatMap((line) => wordsOfOpening(line) ?? []);
  if (known.length === 0) {
    printLine('There is nothing in the firewall to open.', json);
    return false;
  }
  const runnable = lines.filter((line) => wordsOfOpening(line) !== null);
  printLine(
    'These lines open the firewall of this computer for the addresses in them, and for nobody else:',
    json,
  );
  for (const line of runnable) printLine(`  ${line}`, json);
  if (!(await isYes('Run them? Type yes: '))) {
    printLine('Nothing was changed.', json);
    return false;
  }
  for (const line of runnable) await run(line);
  return true;
}

async function isYes(question: string): Promise<boolean> {
  const lines = createInterface({ input: process.stdin, output: process.stderr, terminal: false });
  process.stderr.write(question);
  try {
    const answer = await new Promise<string>((resolve) => {
      lines.once('line', resolve);
      lines.once('close', () => resolve(''));
    });
    return answer.trim().toLowerCase() === 'yes';
  } finally {
    lines.close();
  }
}

async function run(line: string): Promise<void> {
  const words = wordsOfOpening(line) ?? [];
  // Whoever is root needs no sudo, and may not have it.
  const [program = '', ...args] = words[0] === 'sudo' && process.getuid?.() === 0 ? words.slice(1) : words;
  const child = spawn(program, args, { stdio: ['inherit', 2, 2] });
  const [code] = await once(child, 'exit').catch((cause: unknown) => {
    throw failed(line, cause);
  });
  if (code !== 0) throw failed(line, null);
}

function failed(line: string, cause: unknown): SetsideError {
  return new SetsideError('command-failed', `this line did not work: ${line}`, {
    cause,
    cure: 'Run it by hand as an administrator, and look at what it says.',
  });
}
