import type { JobSummary, LinkList, MadeLink, NewLink } from '../contract/index.ts';
import type { Share, Who } from './core/who.ts';

/** What the web door needs of the station about links. */
export interface LinkCalls {
  /** Those that have not ended, the newest first. */
  links(): Promise<LinkList>;
  /** Rejects `no-job`, `no-shot`, `too-many-links`. */
  makeLink(wish: NewLink, who: Who): Promise<MadeLink>;
  /** Ends it at once, its event streams too; false where there is none of that id. */
  endLink(id: string, who: Who): Promise<boolean>;
  /**
   * Exchanges a token for a secret of one device; null where the token belongs to no link now. `known` is the secret the
   * device has already: of the same link, it stays. An operator's link that came in clear lets nobody in and has ended:
   * everybody on the network may have read its secret.
   */
  enterLink(token: string, known: string | null, address: string, line: Line): Promise<EnterAnswer>;
  /** Who holds this secret now, which counts as seen; null where its link has ended. Cheap: asked for every call. */
  holder(secret: string): LinkHolder | null;
  /** A device goes: its secret is worth nothing from now on. */
  leaveLink(secret: string): Promise<void>;
  /** Hears the id of each link that ends, until the returned function is called. */
  onLinkEnd(listener: (link: string) => void): () => void;
  /** Hears each `Who.device` that is out though its link goes on, until the returned function is called. */
  onDeviceOut(listener: (device: string) => void): () => void;
  /** The job that is shared, with those shots only; null where it is gone. */
  sharedJob(share: Share): Promise<JobSummary | null>;
}

/**
 * How a secret came: `encrypted` under TLS or from this computer itself; `here-in-clear` by the door for links, from a browser
 * on this computer: nothing has crossed a network, but what comes by that door is not believed to be from here.
 */
export type Line = 'encrypted' | 'here-in-clear' | 'in-clear';

/** `ended-in-clear`: an operator's secret crossed the network in clear, and its link has ended. `encrypted-only`: it goes on. */
export type EnterAnswer = EnteredLink | 'encrypted-only' | 'ended-in-clear' | null;

export interface LinkHolder {
  readonly who: Who;
  /** RFC 3339. */
  readonly ends: string;
}

export interface EnteredLink extends LinkHolder {
  readonly secret: string;
  /** Until its end. */
  readonly seconds: number;
}
