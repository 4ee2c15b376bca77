import { holds } from '../address-for.ts';
import { addressUse, camerasMayEnter, networkOf } from '../addresses.ts';
import type { LineFacts } from '../facts.ts';
import type { LineFinding } from '../shapes.ts';
import { cure, found, seen } from './finding.ts';
import { type Trouble, timesOf, troubles } from './told.ts';
import { passiveShut, passiveWalls } from './walls.ts';

/** Cameras that log in, and no file gets through. */
export function dataTroubles(facts: LineFacts): readonly LineFinding[] {
  return [
    ...troubles(facts, ['line.no-data-connection'], 'upload')
      // What failed while this computer's own firewall was shut says nothing of anybody else's.
      .filter(({ last }) => passiveWalls(facts, 'shut').length > 0 || last.atMs > (facts.passiveShutMs ?? 0))
      .map((trouble) => noData(facts, trouble)),
    ...troubles(facts, ['line.cannot-dial'], 'upload').map((trouble) => cannotDial(facts, trouble)),
    ...troubles(facts, ['line.refused-command'], 'upload', ({ args }) => String(args.why ?? ''))
      .filter(({ last }) => isFolder(String(last.finding.args.why ?? '')))
      .map((trouble) => folderRefused(facts, trouble)),
  ];
}

function noData(facts: LineFacts, trouble: Trouble): LineFinding {
  const { camera } = trouble;
  const times = timesOf(trouble, facts);
  const behind = behindRouter(facts, trouble.address);
  if (behind !== null) {
    const [mine] = camerasMayEnter(facts.interfaces);
    const network = mine === undefined ? '' : networkOf(mine.address, mine.prefixBits);
    return found(
      ['line-check.address-translated', 'shut', 'likely'],
      {},
      {
        camera,
        evidence: [times, behind],
        cures: [cure('network', 'same-network', camera === null ? { network } : { camera, network })],
      },
    );
  }
  const shut = passiveWalls(facts, 'shut');
  if (shut.length > 0) {
    const finding = passiveShut(facts, shut, camera);
    return { ...finding, evidence: [times, ...finding.evidence] };
  }
  const isOpen = passiveWalls(facts, 'open').length > 0 && passiveWalls(facts, 'unknown').length === 0;
  const sftp = facts.doors.find(({ name }) => name === 'sftp')?.port ?? null;
  const ports = `${facts.passive.from}-${facts.passive.to}`;
  return found(
    ['line-check.passive-shut-between', 'shut', isOpen ? 'likely' : 'possible'],
    { ports },
    {
      camera,
      evidence: [
        times,
        isOpen
          ? seen('rules-open', { kind: facts.firewall.kind })
          : seen('rules-unread', { kind: facts.firewall.kind }),
      ],
      cures: [
        isOpen ? null : cure('station', 'read-firewall'),
        cure('network', 'open-between', sftp === null ? { ports } : { ports, sftp }),
      ],
    },
  );
}

/** A client in none of our networks, or with the face of the router itself: addresses are translated on the way. */
function behindRouter({ interfaces }: LineFacts, address: string): ReturnType<typeof seen> | null {
  if (addressUse(address) === 'loopback' || !address.includes('.')) return null;
  if (interfaces.some(({ gateway }) => gateway === address)) return seen('gateway-face', { address });
  const isNear = camerasMayEnter(interfaces).some((mine) => holds(mine, address));
  return isNear ? null : seen('behind-gateway', { address });
}

function cannotDial(facts: LineFacts, trouble: Trouble): LineFinding {
  const { camera } = trouble;
  return found(
    ['line-check.active-behind-wall', 'shut', 'likely'],
    {},
    {
      camera,
      evidence: [timesOf(trouble, facts)],
      cures: [cure('camera', 'passive-mode', camera === null ? {} : { camera })],
    },
  );
}

function isFolder(why: string): boolean {
  return ['not-found', 'no-folder', 'not-a-folder', 'too-deep'].includes(why);
}

function folderRefused(facts: LineFacts, trouble: Trouble): LineFinding {
  const { verb, name, reply } = trouble.last.finding.args;
  return found(
    ['line-check.folder-refused', 'shut', 'certain'],
    { name: name ?? '' },
    {
      camera: trouble.camera,
      evidence: [timesOf(trouble, facts), seen('refused', { verb: verb ?? '', reply: reply ?? '' })],
      cures: [cure('camera', 'enter-folder')],
    },
  );
}
