import { type Profiler, Session } from 'node:inspector';

/**
 * Which blocks of our sources ran, as V8 counts them for its own coverage (Chrome DevTools Protocol, Profiler domain,
 * precise coverage). Make it before the sources are loaded: code that is there already is counted by function only.
 */
export class BlockCoverage {
  readonly #session = new Session();

  constructor() {
    this.#session.connect();
    this.#session.post('Profiler.enable');
    this.#session.post('Profiler.startPreciseCoverage', { callCount: true, detailed: true });
  }

  /** The blocks that ran since the last call, each with how often. */
  take(): Map<string, number> {
    const ran = new Map<string, number>();
    // Sessions of one's own thread answer before post() returns.
    this.#session.post('Profiler.takePreciseCoverage', (_trouble, answer) => {
      for (const script of answer?.result ?? []) {
        if (script.url.includes('/src/')) addBlocks(ran, script);
      }
    });
    return ran;
  }

  stop(): void {
    this.#session.post('Profiler.stopPreciseCoverage');
    this.#session.disconnect();
  }
}

function addBlocks(ran: Map<string, number>, script: Profiler.ScriptCoverage): void {
  for (const { ranges } of script.functions) {
    for (const { startOffset, endOffset, count } of ranges) {
      if (count > 0) ran.set(`${script.scriptId}:${startOffset}-${endOffset}`, count);
    }
  }
}
