import { SetsideError } from '../../base/index.ts';
import type { MadeLink, NewLink } from '../../contract/index.ts';
import { listedShots } from '../../job/index.ts';
import type { LinkCalls, Share } from '../../serve/index.ts';
import type { JobBook } from '../jobs/job-book.ts';
import type { StationLog } from '../station-log.ts';
import type { LinkBook } from './link-book.ts';
import type { Outside } from './outside.ts';

export interface LinkDeskOptions {
  readonly links: LinkBook;
  /** The door for links; null before the web door listens, which is before anybody can ask. */
  readonly outside: () => Pick<Outside, 'addresses' | 'follow' | 'shape'> | null;
  readonly jobs: Pick<JobBook, 'job'>;
  readonly log: StationLog;
}

const minuteMs = 60_000;
const minutesDefault = 12 * 60;
const doorShut = { port: null, trouble: null };

/** The calls about links, answered by the book and the door. What is done with links stands in the station's log. */
export function createLinkDesk(options: LinkDeskOptions): LinkCalls {
  const { links, outside, log } = options;
  const door = (): ReturnType<Outside['shape']> => outside()?.shape() ?? doorShut;
  return {
    links: async () => ({ links: links.all(), door: door() }),
    makeLink: (wish) => makeLink(options, wish),
    endLink: async (id) => {
      const ended = await links.end(id);
      if (ended !== null) log('info', { code: 'station.link-ended', args: { name: ended.name } });
      return ended !== null;
    },
    enterLink: async (token, known, peer, line) => {
      const address = peer.replace(/^::ffff:(?=\d+\.)/i, '');
      const entered = await links.enter(token, known, line);
      if (entered === null) log('warn', { code: 'station.link-wrong', args: { address } });
      else if (entered === 'ended-in-clear')
        log('warn', { code: 'station.link-in-clear', args: { address } });
      else if (entered !== 'encrypted-only')
        log('info', { code: 'station.link-entered', args: { name: entered.who.name, address } });
      return entered;
    },
    holder: (secret) => links.holder(secret),
    leaveLink: (secret) => links.leave(secret),
    onLinkEnd: (listener) => links.onEnd(listener),
    onDeviceOut: (listener) => links.onDeviceOut(listener),
    sharedJob: async (share) => sharedJob(options, share),
  };
}

async function makeLink(options: LinkDeskOptions, wish: NewLink): Promise<MadeLink> {
  const { links, outside, log } = options;
  const share = wish.share ?? null;
  if (share !== null) assertThere(options, share);
  const { link, token } = await links.make({
    scope: wish.scope,
    name: wish.name,
    share,
    lastsMs: (wish.minutes ?? minutesDefault) * minuteMs,
  });
  await outside()?.follow(true);
  log('info', { code: 'station.link-made', args: { name: link.name, scope: link.scope } });
  return {
    link,
    // An operator's link lets nobody in in clear, so an address in clear would only give its secret away.
    addresses: (outside()?.addresses(token) ?? [])
      .filter(({ encrypted }) => encrypted || wish.scope !== 'operator')
      .map((address) => ({ ...address })),
    door: outside()?.shape() ?? doorShut,
  };
}

function assertThere({ jobs }: LinkDeskOptions, { job: code, shots }: Share): void {
  const job = jobs.job(code);
  if (job === null) throw new SetsideError('no-job', `there is no job ${code}`);
  const missing = shots.find((id) => !listedShots(job).some((shot) => shot.id === id));
  if (missing !== undefined) throw new SetsideError('no-shot', `job ${code} has no shot ${missing}`);
}

function sharedJob({ jobs }: LinkDeskOptions, share: Share): Awaited<ReturnType<LinkCalls['sharedJob']>> {
  const job = jobs.job(share.job);
  if (job === null) return null;
  const shots = listedShots(job)
    .filter(({ id }) => share.shots.length === 0 || share.shots.includes(id))
    .map(({ id, name, order }) => ({ id, name, order: [...(order ?? [])] }));
  return { code: job.code, title: job.title, client: job.client, shots };
}
