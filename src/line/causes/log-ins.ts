import type { LineFacts } from '../facts.ts';
import type { LineFinding } from '../shapes.ts';
import { cure, found, seen } from './finding.ts';
import { type Trouble, timesOf, troubles } from './told.ts';

/** Most cameras there are room for in one sentence. */
const usersMax = 4;
/** The newest of those who gave a wrong log-in: more are no help to anybody, and a stranger could fill the page with them. */
const strangersMax = 8;
/** A user as somebody mistypes it; what is longer or stranger than this was written for whoever reads it. */
const mistyped = /^[\p{L}\p{N} ._@-]{1,20}$/u;

/** Log-ins that were refused since the same client last got in. How near a wrong password was is never looked at. */
export function refusedLogIns(facts: LineFacts): readonly LineFinding[] {
  const wrong = troubles(
    facts,
    ['line.wrong-login', 'line.too-many-logins', 'line.too-many-keys'],
    'log-in',
    // One who tries name after name is one stranger, however many names that were.
    ({ args }) => ownerOf(facts, args.user)?.user ?? (args.user === undefined ? '' : 'nobody'),
  ).filter((trouble) => !hasComeSince(facts, trouble));
  const told = troubles(
    facts,
    ['line.not-allowed-from', 'line.wrong-door', 'line.camera-ended'],
    'log-in',
    ({ code, args }) => `${code} ${args.camera}`,
  );
  return [
    ...wrong.slice(-strangersMax).map((trouble) => wrongLogIn(facts, trouble)),
    ...told.map((trouble) => keptOut(facts, trouble)),
  ];
}

function wrongLogIn(facts: LineFacts, trouble: Trouble): LineFinding {
  const user = String(trouble.last.finding.args.user ?? '');
  const { address } = trouble;
  const times = timesOf(trouble, facts);
  if (user === '') {
    return found(
      ['line-check.too-many-tries', weightOf(facts), 'likely'],
      { address },
      {
        evidence: [times],
        cures: [cure('camera', 'wait-then-enter')],
      },
    );
  }
  const camera = ownerOf(facts, user);
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
    ['line-check.wrong-user', weightOf(facts), 'certain'],
    mistyped.test(user) ? { address, user } : { address },
    {
      evidence: [times, seen('user', { known: 0 })],
      cures: [cure('camera', 'enter-user', users.length > usersMax ? {} : { users: users.join(', ') })],
    },
  );
}

function ownerOf({ cameras }: LineFacts, user: unknown): LineFacts['cameras'][number] | undefined {
  return cameras.find((each) => each.user === user);
}

/** A camera that was put right may come from another address than the one where it was wrong. */
function hasComeSince(facts: LineFacts, { last }: Trouble): boolean {
  const camera = ownerOf(facts, last.finding.args.user)?.name;
  return (
    camera !== undefined &&
    facts.lines.some((line) => isLogIn(line) && line.camera === camera && line.atMs > last.atMs)
  );
}

/** A stranger at the door shuts nobody out; where a camera has not come yet it may be that one. */
function weightOf({ cameras, lines }: LineFacts): LineFinding['weight'] {
  const missing = cameras
    .filter(({ ended, protocols }) => !ended && protocols.length > 0)
    .filter(
      ({ name, connected }) => !connected && !lines.some((line) => isLogIn(line) && line.camera === name),
    );
  return missing.length > 0 ? 'shut' : 'note';
}

function isLogIn({ finding }: LineFacts['lines'][number]): boolean {
  return finding.code === 'line.logged-in';
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
