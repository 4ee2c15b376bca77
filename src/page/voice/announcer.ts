import { spokenFrame, spokenFrames, spokenLines } from '../../words/index.ts';
import { type Backlog, ended, gravest, nothingToSay, take } from './backlog.ts';
import { isNextStep, nearingTones, type PlaceStep } from './nearing.ts';
import type { SoundChoices } from './sound-choices.ts';
import { hush, say } from './speaker.ts';
import type { Telling } from './telling.ts';
import type { TonePlayer } from './tone-player.ts';
import { goneTones, type TonePattern, verdictTones, wordTones } from './tones.ts';

/** A frame to be told, with where its subject lies where that was measured. */
export interface Announced {
  readonly telling: Telling;
  readonly step: PlaceStep | null;
}

/** Says one thing at a time. What is said is decided by `backlog.ts`; here it is made to sound. */
export class Announcer {
  readonly #player: TonePlayer;
  readonly #choices: () => SoundChoices;
  #backlog: Backlog = nothingToSay;
  #lastStep: PlaceStep | null = null;
  /** Rises with everything that is begun, so that what was cut short ends nothing. */
  #turn = 0;

  constructor(player: TonePlayer, choices: () => SoundChoices) {
    this.#player = player;
    this.#choices = choices;
  }

  announce({ telling, step }: Announced): void {
    const choices = this.#choices();
    if (choices.how === 'off') return;
    const before = this.#lastStep;
    if (step !== null) this.#lastStep = step;
    // Something is being moved to its place: how near it is says more than once again that it is not there.
    const isMoving = choices.nearing && step !== null && isNextStep(before, step);
    if (isMoving && (telling.question === 'inPlace' || telling.judgement === 'good')) {
      const text = step.isInPlace ? spokenLines.inPlace : null;
      this.#interrupt(nearingTones(before, step), text);
      return;
    }
    if (choices.what === 'trouble' && telling.judgement !== 'bad' && telling.judgement !== 'doubt') return;
    this.#go(take(this.#backlog, telling, performance.now()));
  }

  /** The station is gone: that goes before everything. */
  announceGone(): void {
    if (this.#choices().how !== 'off') this.#interrupt(goneTones, spokenLines.stationGone);
  }

  /** No frame comes until somebody has changed the camera: that goes before everything too. */
  announceChanged(text: string): void {
    if (this.#choices().how !== 'off') this.#interrupt(goneTones, text);
  }

  /** A guest has said something. A verdict that is being told goes before it: what was said stays on the page. */
  announceWord(text: string): void {
    const { how, what } = this.#choices();
    if (how === 'off' || what === 'trouble' || this.#backlog.saying.length > 0) return;
    this.#interrupt(wordTones, text);
  }

  /** Lets one hear a pattern, and the voice where it is wanted. */
  example(pattern: TonePattern, text: string | null): void {
    this.#interrupt(pattern, text);
  }

  silence(): void {
    this.#turn += 1;
    this.#backlog = nothingToSay;
    this.#player.stop();
    hush();
  }

  #interrupt(pattern: TonePattern, text: string | null): void {
    this.silence();
    void this.#sound(pattern, text, this.#turn);
  }

  #go(next: Backlog): void {
    const begins = next.saying !== this.#backlog.saying;
    this.#backlog = next;
    if (!begins) return;
    this.#turn += 1;
    hush();
    const turn = this.#turn;
    const { saying } = next;
    const [first] = saying;
    if (first === undefined) return;
    const text =
      saying.length === 1 ? spokenFrame(first) : spokenFrames(saying.map((each) => each.judgement));
    void this.#sound(verdictTones[gravest(saying)], text, turn).then(() => {
      if (turn === this.#turn) this.#go(ended(this.#backlog, performance.now()));
    });
  }

  /** The pattern, and after it the words where a voice is wanted. */
  async #sound(pattern: TonePattern, text: string | null, turn: number): Promise<void> {
    await this.#player.play(pattern, this.#choices().volume);
    if (turn !== this.#turn || text === null || this.#choices().how !== 'voice') return;
    await say(text, this.#choices().volume);
  }
}
