import { exhaustive } from '../../base/index.ts';
import type { StationEvent } from '../../contract/index.ts';
import { agreementsFor, frameFor } from './shared.ts';
import { isHere, type Who } from './who.ts';
import { withoutSecrets } from './without-secrets.ts';

/**
 * What somebody hears of an event; null where it is none of theirs. The caller gives an event of its own: it may come
 * back as it is.
 */
export function eventFor(who: Who, event: StationEvent): StationEvent | null {
  // What lies in folders of the station's computer is told there only.
  if (event.type === 'card' || event.type === 'bag') return isHere(who) ? event : null;
  if (who.scope === 'operator') return event;
  if (ofOperators.has(event.type)) return null;
  // The shape stays: only texts and lists are emptied.
  const told = withoutSecrets(event) as StationEvent;
  return who.scope === 'pocket' ? told : guestEvent(who, told);
}

function guestEvent(who: Who, event: StationEvent): StationEvent | null {
  switch (event.type) {
    case 'arrival':
    case 'copy':
    case 'frame': {
      const frame = frameFor(who, event.frame);
      if (frame !== null) return { ...event, frame };
      // It may have been shared until now: the guest's page asks again for what is.
      return event.type === 'frame' && hides.has(event.change) ? { type: 'resync' } : null;
    }
    case 'resync':
    case 'shut-out':
      return event;
    case 'job': {
      const agreements = agreementsFor(who, event.code, event.job?.agreements ?? []);
      return agreements === null ? null : { type: 'agreements', code: event.code, agreements };
    }
    case 'agreements':
    case 'line':
    case 'client':
    case 'look':
    case 'delivery':
    case 'papers':
    case 'card':
    case 'bag':
    case 'verification':
      return null;
    default:
      return exhaustive(event);
  }
}

const ofOperators: ReadonlySet<string> = new Set(['look', 'delivery', 'papers', 'verification']);
const hides: ReadonlySet<string> = new Set(['moved', 'marked', 'chosen', 'shared']);
