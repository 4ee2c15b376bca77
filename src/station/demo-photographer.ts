import { SetsideError } from '../base/index.ts';
import { demoJob } from './demo-job.ts';

interface DemoRemark {
  readonly name: string;
  readonly text: string;
  /** Shares of the picture; null: about all of it. */
  readonly point: { readonly x: number; readonly y: number } | null;
  readonly inside: boolean;
}

/** Said of the first picture of a shot: invented, by people who are none. */
const remarks: Readonly<Record<string, DemoRemark>> = {
  mug: {
    name: 'Client, on the set',
    text: 'A little more room on the right, the handle almost leaves the page.',
    point: { x: 0.64, y: 0.5 },
    inside: false,
  },
  bowl: {
    name: 'Assistant',
    text: 'Turn the chipped side away before the next one.',
    point: null,
    inside: true,
  },
};

/** A call of the demo is given up after this long: it goes to this very process. */
const callMsMax = 10_000;

/**
 * What the photographer of the demo does on the page, by the calls that the page uses: goes on to the next shot, says that the
 * first frame of it is the target, makes the first picture its reference, and writes down what the client beside them says.
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
      const said = remarks[pressed.shot];
      // One id for each frame: said again after a cut line it counts once.
      if (said !== undefined)
        await this.#call('POST', `/frames/${frame}/remarks`, { id: `demo-${frame}`, ...said });
    }
  }

  #patch(path: string, body: object): Promise<void> {
    return this.#call('PATCH', path, body);
  }

  async #call(method: 'PATCH' | 'POST', path: string, body: object): Promise<void> {
    const answer = await fetch(`${this.#webUrl}/api/v1${path}`, {
      method,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
      signal: AbortSignal.any([this.#signal, AbortSignal.timeout(callMsMax)]),
    });
    if (!answer.ok)
      throw new SetsideError('demo-refused', `${path}: ${answer.status} ${await answer.text()}`);
  }
}
