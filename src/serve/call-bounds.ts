import type { FastifyReply, FastifyRequest } from 'fastify';
import { Budget, placeOf } from './core/budget.ts';
import type { WebLimits } from './core/limits.ts';
import type { Who } from './core/who.ts';
import { Refusal } from './errors.ts';
import { isOutside } from './passage.ts';

const minuteS = 60;

/** How often others than the operator's own computer may call, and how often a token may be wrong. */
export class CallBounds {
  readonly #byLink: Budget;
  readonly #strangers: Budget;
  readonly #words: Budget;
  readonly #wrongTokens: Budget;
  readonly #now: () => number;

  constructor(limits: WebLimits, now: () => number) {
    const keysMax = limits.addressesMax;
    this.#now = now;
    this.#byLink = new Budget({
      perSecond: limits.callsPerSecondMax,
      atOnce: limits.callsAtOnceMax,
      keysMax,
    });
    this.#strangers = new Budget({
      perSecond: limits.strangerCallsPerSecondMax,
      atOnce: limits.strangerCallsAtOnceMax,
      keysMax,
    });
    this.#words = new Budget({
      perSecond: limits.wordsPerSecondMax,
      atOnce: limits.wordsAtOnceMax,
      keysMax,
    });
    this.#wrongTokens = new Budget({
      perSecond: limits.wrongTokensPerMinuteMax / minuteS,
      atOnce: limits.wrongTokensPerMinuteMax,
      keysMax,
    });
  }

  /** Counts a call; throws `too-many-calls` beyond what its link, or its address without one, may make. */
  count(request: FastifyRequest, reply: FastifyReply, who: Who | null): void {
    if (!isOutside(request)) return;
    const isFine =
      who?.link === undefined
        ? this.#strangers.take(placeOf(addressOf(request)), this.#now())
        : this.#byLink.take(who.link, this.#now());
    if (isFine) return;
    reply.header('retry-after', '1');
    throw new Refusal('too-many-calls', 'More was asked for than one device has a use for.');
  }

  /** Counts something that is said by a link; throws `too-many-calls` beyond what it may say. */
  countWord(reply: FastifyReply, who: Who): void {
    if (who.link === undefined || this.#words.take(who.link, this.#now())) return;
    reply.header('retry-after', '2');
    throw new Refusal('too-many-calls', 'More was said than one link has a use for.');
  }

  /** Throws `too-many-tries` where the address gave too many wrong tokens; then no token is looked at, a right one neither. */
  assertMayTry(request: FastifyRequest, reply: FastifyReply): void {
    const place = placeOf(addressOf(request));
    if (this.#wrongTokens.left(place, this.#now()) >= 1) return;
    reply.header('retry-after', String(minuteS));
    throw new Refusal('too-many-tries', 'Too many links that do not exist were tried from here.');
  }

  /** Notes a token as wrong. */
  noteWrong(request: FastifyRequest): void {
    this.#wrongTokens.take(placeOf(addressOf(request)), this.#now());
  }

  /** The last token noted was right. */
  forgiveWrong(request: FastifyRequest): void {
    this.#wrongTokens.giveBack(placeOf(addressOf(request)), this.#now());
  }
}

function addressOf(request: FastifyRequest): string {
  return request.raw.socket.remoteAddress ?? '';
}
