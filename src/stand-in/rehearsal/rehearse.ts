import { connect } from 'node:net';
import { networkInterfaces } from 'node:os';
import { FTPError } from 'basic-ftp';
import { errorCode, errorMessage } from '../../base/index.ts';
import { isInNetwork } from '../../line/index.ts';
import { causeOf, differencesOf, type RehearsalStep, type StepFailure } from '../core/rehearsal-cause.ts';
import { ftpWalker } from './ftp-walker.ts';
import { sftpWalker } from './sftp-walker.ts';
import type { RehearsalOptions, RehearsalReport, Seen, StepOutcome } from './shapes.ts';

const stepMsDefault = 8000;

/**
 * Walks a camera's way to the station step by step with the settings that were entered on it, and stops at the first that
 * fails. What it sends is a picture that the station keeps like any other. Never rejects for what the line does; rejects
 * with the signal's reason.
 */
export async function rehearse(options: RehearsalOptions): Promise<RehearsalReport> {
  const stepMs = options.stepMs ?? stepMsDefault;
  const steps: StepOutcome[] = [];
  const walk = async (step: RehearsalStep, take: () => Promise<Seen>): Promise<boolean> => {
    options.signal.throwIfAborted();
    const outcome = await outcomeOf(step, take, options);
    options.signal.throwIfAborted();
    steps.push(outcome);
    options.onStep(outcome);
    return outcome.ok;
  };
  let local = '';
  const isReached = await walk('reach', async () => {
    local = await reach(options, stepMs);
    return { code: 'reached', args: { host: options.host, port: options.port, local } };
  });
  if (!isReached) return { ok: false, steps, differences: [] };
  const walker = options.protocol === 'sftp' ? sftpWalker(options, stepMs) : ftpWalker(options, stepMs);
  try {
    for (const [step, take] of walker.steps) {
      if (!(await walk(step, take))) break;
    }
  } finally {
    walker.close();
  }
  const ends = walker.ends();
  return {
    ok: steps.every(({ ok }) => ok),
    steps,
    differences: differencesOf({ ...ends, local: ends.local === '' ? local : ends.local }),
  };
}

async function outcomeOf(
  step: RehearsalStep,
  take: () => Promise<Seen>,
  { host, port, protocol, secure }: RehearsalOptions,
): Promise<StepOutcome> {
  const began = performance.now();
  const took = (): number => Math.round(performance.now() - began);
  try {
    const { code, args } = await take();
    return { step, ok: true, ms: took(), finding: { code: `rehearsal.${code}`, args } };
  } catch (thrown) {
    const tried = { host, port, protocol, secure: secure.how, near: isNear(host) };
    const seen = seenOf(thrown);
    const failed = stepOf(step, seen);
    return { step: failed, ok: false, ms: took(), finding: causeOf(failed, seen, tried) };
  }
}

/**
 * The step that really failed. With TLS from the first byte what fails before the greeting is the encryption; with SFTP what
 * fails before user and password are asked for is the greeting.
 */
function stepOf(step: RehearsalStep, { systemCode, message }: StepFailure): RehearsalStep {
  if (step === 'greet' && /^(?:ERR_(?:TLS|SSL)|CERT_|UNABLE_|DEPTH_|SELF_)|EPROTO/.test(systemCode ?? '')) {
    return 'secure';
  }
  return step === 'log-in' && /handshake|ident|protocol version/i.test(message) ? 'greet' : step;
}

function seenOf(thrown: unknown): StepFailure {
  const root = thrown instanceof Error && thrown.cause !== undefined ? thrown.cause : thrown;
  return {
    systemCode: codeOf(root),
    reply: root instanceof FTPError ? root.code : null,
    message: errorMessage(root),
  };
}

function codeOf(thrown: unknown): string | null {
  const code = errorCode(thrown);
  return typeof code === 'string' ? code : null;
}

/** Whether an address, IPv4, is in one of this computer's own networks. */
function isNear(host: string): boolean {
  return Object.values(networkInterfaces()).some((entries = []) =>
    entries.some(({ cidr, family }) => family === 'IPv4' && cidr !== null && isInNetwork(host, cidr)),
  );
}

/** Opens a connection and lets it go again; gives the address of this computer on that way. */
function reach({ host, port, signal }: RehearsalOptions, stepMs: number): Promise<string> {
  return new Promise((resolve, reject) => {
    const socket = connect({ host, port, signal });
    socket.setTimeout(stepMs, () => {
      socket.destroy(Object.assign(new Error('nobody answered'), { code: 'ETIMEDOUT' }));
    });
    socket.once('connect', () => {
      const { localAddress = '' } = socket;
      socket.destroy();
      resolve(localAddress.replace(/^::ffff:/, ''));
    });
    socket.once('error', reject);
  });
}
