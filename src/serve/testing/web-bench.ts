import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createWebApp, type WebAppOptions } from '../assembly.ts';
import type { EventLogOptions } from '../core/event-log.ts';
import type { WebApp } from '../web-app.ts';
import type { WebLogEntry } from '../web-log.ts';
import { DeskFake } from './desk-fake.ts';

/** What comes back from a request injected without a socket. */
export type InjectAnswer = Awaited<ReturnType<WebApp['inject']>>;

/** The application on a faked desk, with a directory of its own and what it logged. */
export interface WebBench {
  readonly app: WebApp;
  readonly desk: DeskFake;
  /** Empty at first; the page's directory is `page` in it, which is not made. */
  readonly dir: string;
  readonly pageDir: string;
  readonly log: readonly WebLogEntry[];
  /** Closes the application and removes the directory. */
  close(): Promise<void>;
}

export async function openWebBench(
  options: Partial<WebAppOptions> = {},
  events: Partial<EventLogOptions> = {},
): Promise<WebBench> {
  const dir = await mkdtemp(join(tmpdir(), 'setside-serve-'));
  const pageDir = join(dir, 'page');
  const desk = new DeskFake(events);
  const log: WebLogEntry[] = [];
  const app = await createWebApp({ pageDir, version: '0.0.0-test', ...options }, desk, (entry) =>
    log.push(entry),
  );
  const close = async (): Promise<void> => {
    await app.close();
    await rm(dir, { recursive: true, force: true });
  };
  return { app, desk, dir, pageDir, log, close };
}
