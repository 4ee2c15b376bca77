import type { LinkScope } from '../../contract/index.ts';

/** What somebody may do. */
export type Scope = LinkScope;

/** What a guest is shown: pictures of one job, of all its shots where none is named. */
export interface Share {
  readonly job: string;
  readonly shots: readonly string[];
}

export interface Who {
  readonly scope: Scope;
  /** For the journal: who chose. */
  readonly name: string;
  /** The link they came in by; nothing on the computer of the station. */
  readonly link?: string;
  /** The browser that came in by it, by a name that opens nothing and is told to nobody. */
  readonly device?: string;
  /** Which of several pages of one person, by a name that the page gave itself. */
  readonly screen?: string;
  /** Of a guest; one without is shown nothing. */
  readonly share?: Share | null;
}

const reach: Readonly<Record<Scope, number>> = { guest: 0, pocket: 1, operator: 2 };

/** Whether a scope reaches as far as another. */
export function reaches(scope: Scope, wanted: Scope): boolean {
  return reach[scope] >= reach[wanted];
}

/** The operator on the computer of the station itself, not one who came in by a link. */
export function isHere(who: Who): boolean {
  return who.scope === 'operator' && who.link === undefined;
}
