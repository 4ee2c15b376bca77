import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { DestinationPlace } from '../../src/contract/index.ts';
import {
  defaultSendLimits,
  type FileToSend,
  Sender,
  type SenderOptions,
  SendFailure,
  type SendWatch,
  type Sent,
} from '../../src/send/index.ts';

/** Files of this computer, and how their sending went. */
export class SendBench {
  readonly folder: string = mkdtempSync(join(tmpdir(), 'setside-send-'));
  /** What `progress` heard, in order, of all attempts. */
  readonly heard: number[] = [];
  readonly abort: AbortController = new AbortController();
  token: string | null = null;
  /** Called with each of them. */
  onProgress: (bytes: number) => void = () => {};

  /** Bytes that a hole or a piece in a wrong place would change. */
  file(name: string, bytes: number, seed = 1): FileToSend {
    const content = Buffer.alloc(bytes);
    for (let at = 0; at + 4 <= bytes; at += 4) content.writeUInt32LE((at * 2_654_435_761 + seed) >>> 0, at);
    const path = join(this.folder, name);
    writeFileSync(path, content);
    return { path, name, bytes, sha256: createHash('sha256').update(content).digest('hex') };
  }

  sender(place: DestinationPlace, secret: string | null, more: Partial<SenderOptions> = {}): Sender {
    const limits = { ...defaultSendLimits, triesMax: 4, silenceMsMax: 20_000 };
    return new Sender({
      place,
      secret: async () => secret,
      below: [],
      limits,
      wait: async () => {},
      ...more,
    });
  }

  /** Once, by a sender that is closed afterwards. */
  async send(
    place: DestinationPlace,
    secret: string | null,
    file: FileToSend,
    more: Partial<SenderOptions> = {},
  ): Promise<Sent> {
    const sender = this.sender(place, secret, more);
    try {
      return await sender.send(file, this.watch());
    } finally {
      sender.close();
    }
  }

  watch(): SendWatch {
    return {
      signal: this.abort.signal,
      progress: (bytes) => {
        this.heard.push(bytes);
        this.onProgress(bytes);
      },
      token: () => this.token,
      keepToken: async (token) => {
        this.token = token;
      },
    };
  }

  remove(): void {
    rmSync(this.folder, { recursive: true, force: true });
  }
}

/** What a sending that must fail says. */
export async function refusalOf(sending: Promise<unknown>): Promise<SendFailure> {
  const outcome: unknown = await sending.then(
    () => 'it was sent',
    (thrown: unknown) => thrown,
  );
  if (outcome instanceof SendFailure) return outcome;
  throw new Error(`expected a SendFailure, got ${String(outcome)}`, { cause: outcome });
}
