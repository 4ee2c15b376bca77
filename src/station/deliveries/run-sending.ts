import type { ManifestLine } from '../../deliver/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { DeliveryEntry, NotSent, SentFile } from './delivery-log.ts';

type SendingEntry = Extract<DeliveryEntry, { sent: unknown } | { notSent: unknown } | { upload: unknown }>;

/** What of one delivery is at its destination, by the names of its files. */
export class RunSending {
  readonly #sent = new Map<string, SentFile>();
  readonly #notSent = new Map<string, NotSent>();
  readonly #tokens = new Map<string, string>();
  /** How often what was not sent was asked for again. */
  #rounds = 0;
  /** Why it tries again just now; null while it gets on. */
  trouble: Finding | null = null;
  /** What has come there of the file under way; known in this run of the station only. */
  #underWay: { readonly file: string; readonly bytes: number } | null = null;

  take(entry: SendingEntry): void {
    if ('sent' in entry) this.#sent.set(entry.sent.file, entry.sent);
    else if ('notSent' in entry) this.#notSent.set(entry.notSent.file, entry.notSent);
    else this.#tokens.set(entry.upload.file, entry.upload.token);
  }

  /** What could not be sent is to be sent; what is there stays as it is. */
  again(): void {
    this.#notSent.clear();
    this.#rounds += 1;
  }

  /** A list of contents that is there is not overwritten: a later one has a number. */
  manifestNameThere(name: string): string {
    return this.#rounds === 0 ? name : name.replace(/(?=\.[^.]*$)/, `-${this.#rounds + 1}`);
  }

  isSettled(file: string): boolean {
    return this.#sent.has(file) || this.#notSent.has(file);
  }

  token(file: string): string | null {
    return this.#tokens.get(file) ?? null;
  }

  progress(file: string, bytes: number): void {
    this.#underWay = { file, bytes };
  }

  notSent(): readonly NotSent[] {
    return [...this.#notSent.values()];
  }

  /** What the manifest says of a file. */
  saidOf(file: string): { readonly sentTo: string; readonly findings: readonly Finding[] } {
    const sent = this.#sent.get(file);
    const finding = this.#notSent.get(file)?.finding;
    return {
      sentTo: sent?.where ?? '',
      findings: [
        ...(sent?.proof === 'size' ? [{ code: 'send.size-only', args: {} }] : []),
        ...(finding === undefined ? [] : [finding]),
      ],
    };
  }

  /** Of the files that are made; the manifests go with them and are not counted. */
  figures(made: readonly ManifestLine[]): { filesSent: number; bytesSent: number; bytesToSend: number } {
    const there = made.filter(({ file }) => this.#sent.has(file));
    const sum = (lines: readonly ManifestLine[]): number => lines.reduce((all, { bytes }) => all + bytes, 0);
    const way = this.#underWay;
    const isUnderWay =
      way !== null && made.some(({ file }) => file === way.file) && !this.isSettled(way.file);
    return {
      filesSent: there.length,
      bytesSent: sum(there) + (isUnderWay ? way.bytes : 0),
      bytesToSend: sum(made),
    };
  }
}
