import type { LineFacts } from '../facts.ts';
import type { LineFinding } from '../shapes.ts';
import { cure, found, seen } from './finding.ts';
import { type Trouble, timesOf, troubles } from './told.ts';

/** Most cameras there are room for in one sentence. */
const usersMax = 4;

/** Log-ins that were refused since the same client last got in. How near a wrong password was is never looked at. */
export function refusedLogIns(facts: LineFacts): readonly LineFinding[] {
  const wrong = troubles(
    facts,
    ['line.wrong-login', 'line.too-many-logins', 'line.too-many-keys'],
    'log-in',
    ({ args }) => String(args.user ?? ''),
  );
  const told = troubles(
    facts,
    ['line.not-allowed-from', 'line.wrong-door', 'line.camera-ended'],
    'log-in',
    ({ code, args }) => `${code} ${args.camera}`,
  );
  return [
    ...wrong.map((trouble) => wrongLogIn(facts, trouble)),
    ...told.map((trouble) => keptOut(facts, trouble)),
  ];
}

function wrongLogIn(facts: LineFacts, trouble: Trouble): LineFinding {
  const user = String(trouble.last.finding.args.user ?? '');
  const { address } = trouble;
  const times = timesOf(trouble, facts);
  if (user === '') {
    return found(
      ['line-check.too-many-tries', 'shut', 'likely'],
      { address },
      {
        evidence: [times],
        cures: [cure('camera', 'wait-then-enter')],
      },
    );
  }
  const camera = facts.cameras.find((each) => each.user === user);
  if (camera !== undefined) {
    return found(
      ['line-check.wrong-password', 'shut', 'certain'],
      { address },
      {
        camera: camera.name,
        evidence: [times, seen('user', { known: 1 })],
        cures: [cure('camera', 'enter-password', { camera: camera.name })],
      },
    );
  }
  const users = facts.cameras.filter(({ ended }) => !ended).map((each) => each.user);
  return found(
    ['line-check.wrong-user', 'shut', 'certain'],
    { address, user },
    {
      evidence: [times, seen('user', { known: 0 })],
      cures: [cure('camera', 'enter-user', users.length > usersMax ? {} : { users: users.join(', ') })],
    },
  );
}

/** The log-in was right, and something else was not. */
function keptOut(facts: LineFacts, trouble: Trouble): LineFinding {
  const { code, args } = trouble.last.finding;
  const camera = String(args.camera ?? '');
  const { address } = trouble;
  const evidence = [timesOf(trouble, facts)];
  if (code === 'line.not-allowed-from') {
    return found(
      ['line-check.address-not-allowed', 'shut', 'certain'],
      { address },
      {
        camera,
        evidence,
        cures: [cure('station', 'allow-address', { address })],
      },
    );
  }
  if (code === 'line.wrong-door') {
    const door = String(args.door ?? '');
    return found(
      ['line-check.way-not-allowed', 'shut', 'certain'],
      { door },
      {
        camera,
        evidence,
        cures: [cure('station', 'allow-way', { camera, door })],
      },
    );
  }
  return found(
    ['line-check.camera-ended', 'shut', 'certain'],
    {},
    {
      camera,
      evidence,
      cures: [cure('station', 'let-in-again', { camera })],
    },
  );
}
