import { SetsideError } from '../base/index.ts';
import { demoJob } from './demo-job.ts';

/** A call of the demo is given up after this long: it goes to this very process. */
const callMsMax = 10_000;

/**
 * What the photographer of the demo does on the page, by the calls that the page uses: goes on to the next shot, says that the
 * first frame of it is the target, and makes the first picture its reference.
 */
export class DemoPhotographer {
  readonly #webUrl: string;
  readonly #signal: AbortSignal;
  /** What is in the frames that are on their way, by name. */
  readonly #pressed = new Map<string, { readonly shot: string; readonly purpose: string }>();
  readonly #withReference = new Set<string>();

  constructor(webUrl: string, signal: AbortSignal) {
    this.#webUrl = webUrl;
    this.#signal = signal;
  }

  /** Settles when frames go to the shot. */
  goOn(shot: string): Promise<void> {
    return this.#patch(`/jobs/${demoJob.code}`, { currentShot: shot });
  }

  pressed(name: string, shot: string, purpose: string): void {
    this.#pressed.set(name, { shot, purpose });
  }

  async framesCame(name: string, frame: string): Promise<void> {
    const pressed = this.#pressed.get(name);
    this.#pressed.delete(name);
    if (pressed === undefined) return;
    if (pressed.purpose === 'target') {
      await this.#patch(`/frames/${frame}`, { purpose: 'target' });
    } else if (!this.#withReference.has(pressed.shot)) {
      this.#withReference.add(pressed.shot);
      await this.#patch(`/jobs/${demoJob.code}/shots/${pressed.shot}`, { reference: frame });
    }
  }

  async #patch(path: string, body: object): Promise<void> {
    const answer = await fetch(`${this.#webUrl}/api/v1${path}`, {
      method: 'PATCH',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
      signal: AbortSignal.any([this.#signal, AbortSignal.timeout(callMsMax)]),
    });
    if (!answer.ok)
      throw new SetsideError('demo-refused', `${path}: ${answer.status} ${await answer.text()}`);
  }
}
