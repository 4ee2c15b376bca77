import type { Finding } from '../../../facts/index.ts';

/** From so many on it is said: twice may be chance. */
export const timesWorthAWord = 3;
/** Files remembered of one camera; a camera that breaks off more different ones has another trouble. */
const filesMax = 200;

const ended: ReadonlySet<string> = new Set(['line.upload-kept', 'line.upload-kept-damaged']);

/**
 * How often each file of a camera has broken off without being kept between: a camera that tries for ever is told from one
 * whose line broke once. A file is known by its path on the camera: two folders hold the same name once a counter has
 * begun again.
 */
export class RepeatedBreaks {
  readonly #times = new Map<string, number>();

  /** The finding, with `times` where its file has broken off that often. */
  noted(finding: Finding): Finding {
    const path = String(finding.args.path ?? finding.args.name ?? '');
    if (ended.has(finding.code)) this.#times.delete(path);
    if (finding.code !== 'line.upload-broken-off') return finding;
    const times = (this.#times.get(path) ?? 0) + 1;
    this.#times.delete(path);
    this.#times.set(path, times);
    const [oldest] = this.#times.keys();
    if (this.#times.size > filesMax && oldest !== undefined) this.#times.delete(oldest);
    return times < timesWorthAWord ? finding : { ...finding, args: { ...finding.args, times } };
  }
}
