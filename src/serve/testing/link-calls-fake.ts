import type { JobSummary, Link, LinkList, MadeLink, NewLink } from '../../contract/index.ts';
import type { Share, Who } from '../core/who.ts';
import type { EnterAnswer, Line, LinkCalls, LinkHolder } from '../link-calls.ts';

const ends = '2026-10-02T08:00:00.000Z';
const door = { port: 8461, trouble: null };

/** Who comes in by which token; the secret of a device is its token with nothing but letters. */
export class LinkCallsFake implements LinkCalls {
  /** By token and by secret alike. */
  readonly visitors = new Map<string, Who>();
  readonly ended: string[] = [];
  readonly #listeners = new Set<(link: string) => void>();
  readonly #outListeners = new Set<(device: string) => void>();

  async links(): Promise<LinkList> {
    return { links: [...this.visitors.values()].map(linkOf), door };
  }

  async makeLink(wish: NewLink): Promise<MadeLink> {
    const { share = null, scope, name } = wish;
    const who: Who = { scope, name, link: 'made', share };
    return {
      link: linkOf(who),
      addresses: [{ url: 'https://192.168.0.2:8461/in#x', encrypted: true }],
      door,
    };
  }

  async endLink(id: string): Promise<boolean> {
    for (const [secret, { link }] of this.visitors) if (link === id) this.visitors.delete(secret);
    this.ended.push(id);
    for (const listener of this.#listeners) listener(id);
    return true;
  }

  async enterLink(token: string, _known: string | null, _address: string, line: Line): Promise<EnterAnswer> {
    const who = this.visitors.get(token);
    if (who?.scope === 'operator' && line !== 'encrypted')
      return line === 'in-clear' ? 'ended-in-clear' : 'encrypted-only';
    return who === undefined ? null : { secret: token, who, ends, seconds: 3600 };
  }

  holder(secret: string): LinkHolder | null {
    const who = this.visitors.get(secret);
    return who === undefined ? null : { who: { ...who, device: `device of ${secret}` }, ends };
  }

  async leaveLink(secret: string): Promise<void> {
    this.visitors.delete(secret);
    for (const listener of this.#outListeners) listener(`device of ${secret}`);
  }

  onDeviceOut(listener: (device: string) => void): () => void {
    this.#outListeners.add(listener);
    return () => this.#outListeners.delete(listener);
  }

  onLinkEnd(listener: (link: string) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  async sharedJob({ job }: Share): Promise<JobSummary | null> {
    return { code: job, title: 'Pots', client: 'Nobody', shots: [] };
  }
}

function linkOf({ scope, name, link, share }: Who): Link {
  return {
    id: link ?? '',
    scope,
    name,
    share: share === null || share === undefined ? null : { job: share.job, shots: [...share.shots] },
    made: '2026-10-01T08:00:00.000Z',
    ends,
    devices: 0,
    lastSeen: null,
  };
}
