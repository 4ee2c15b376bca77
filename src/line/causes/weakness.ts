import type { LineFacts } from '../facts.ts';
import type { LineFinding } from '../shapes.ts';
import { cure, found, seen } from './finding.ts';
import { type Trouble, troubles } from './told.ts';

/** Ends of an upload that the line is to blame for, or the camera's own silence. */
const byTheLine: ReadonlySet<string> = new Set(['reset', 'stalled', 'control-lost', 'unclosed']);
/** One packet in so many overtaken by later ones is loss; a line in order has none (common practice, no source). */
const outOfOrderShare = 0.01;
/** Fewer packets than this say nothing. */
const packetsMin = 200;

/** Uploads that begin and break off, and packets that are lost though all arrives in the end. */
export function weakLine(facts: LineFacts): readonly LineFinding[] {
  const breaks = troubles(facts, ['line.upload-broken-off'], 'upload', ({ args }) =>
    byTheLine.has(String(args.why ?? '')) && args.via !== 'folder' ? 'line' : 'other',
  ).filter(
    ({ last: { finding } }) => byTheLine.has(String(finding.args.why ?? '')) && finding.args.via !== 'folder',
  );
  const broken = breaks.map((trouble) =>
    fellAsleep(facts, trouble) ? asleep(facts, trouble) : weak(facts, trouble),
  );
  const loss = lossSeen(facts);
  const isTold = broken.some(({ code }) => code === 'line-check.weak-line');
  if (loss === null || isTold) return broken;
  return [
    ...broken,
    found(
      ['line-check.weak-line', 'weak', 'likely'],
      {},
      { evidence: [loss], cures: [cure('network', 'come-closer')] },
    ),
  ];
}

function weak(facts: LineFacts, trouble: Trouble): LineFinding {
  return found(
    ['line-check.weak-line', 'weak', 'likely'],
    {},
    {
      camera: trouble.camera,
      evidence: [breaksSeen(facts, trouble), speedSeen(facts, trouble.camera), lossSeen(facts)],
      cures: [cure('network', 'come-closer'), cure('camera', 'stay-awake')],
    },
  );
}

/** It fell silent, and it is not there any more: a weak line would still have a camera behind it. */
function fellAsleep(facts: LineFacts, { camera, last }: Trouble): boolean {
  const known = facts.cameras.find(({ name }) => name === camera);
  return (
    last.finding.args.why !== 'reset' && known !== undefined && known.reach === 'no-host' && !known.connected
  );
}

function asleep(facts: LineFacts, trouble: Trouble): LineFinding {
  return found(
    ['line-check.goes-to-sleep', 'weak', 'likely'],
    {},
    {
      camera: trouble.camera,
      evidence: [breaksSeen(facts, trouble), seen('no-answer', { address: trouble.address })],
      cures: [cure('camera', 'stay-awake'), cure('network', 'come-closer')],
    },
  );
}

function breaksSeen({ nowMs }: LineFacts, { times, last }: Trouble): ReturnType<typeof seen> {
  return seen('breaks', { times, name: last.finding.args.name ?? '', ms: Math.max(0, nowMs - last.atMs) });
}

function speedSeen({ cameras }: LineFacts, name: string | null): ReturnType<typeof seen> | null {
  const speed = cameras.find((camera) => camera.name === name)?.bytesPerSecond ?? null;
  return speed === null ? null : seen('speed', { bytesPerSecond: Math.round(speed) });
}

function lossSeen({ packets }: LineFacts): ReturnType<typeof seen> | null {
  if (packets === null || packets.received < packetsMin) return null;
  const share = packets.outOfOrder / packets.received;
  if (share < outOfOrderShare) return null;
  return seen('loss', { percent: Math.round(share * 1000) / 10, packets: packets.received });
}
