import { rehearse, type Secure, type StepOutcome } from '../stand-in/index.ts';
import { sentence } from '../words/index.ts';
import { exitCodes } from './exit-codes.ts';
import { printJson, printLine } from './output.ts';

export interface RehearsalFlags {
  readonly host: string;
  readonly port: number;
  readonly sftp: boolean;
  readonly user: string;
  readonly password: string;
  readonly secure: Secure;
  readonly hostKeys: readonly string[];
  readonly json: boolean;
  readonly signal: AbortSignal;
}

/** `setside stand-in --rehearse`: the way of a camera, step by step, and what is different from one here. */
export async function rehearsal({ sftp, json, ...settings }: RehearsalFlags): Promise<number> {
  const report = await rehearse({
    ...settings,
    protocol: sftp ? 'sftp' : 'ftp',
    onStep: (step) => tell(step, json),
  });
  const { ok, steps, differences } = report;
  if (json) {
    printJson({ ok, steps, differences });
    return ok ? exitCodes.done : exitCodes.no;
  }
  for (const finding of [...differences, { code: ok ? 'rehearsal.works' : 'rehearsal.fails', args: {} }]) {
    printLine(sentence(finding), json);
  }
  return ok ? exitCodes.done : exitCodes.no;
}

function tell({ ok, finding }: StepOutcome, json: boolean): void {
  const line = `${ok ? 'yes' : 'NO '}  ${sentence(finding)}`;
  if (json) process.stderr.write(`${line}\n`);
  else printLine(line, json);
}
