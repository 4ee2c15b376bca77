/**
 * Text of the event stream format: WHATWG HTML, section 9.2 "Server-sent events", 9.2.5 and 9.2.6
 * (https://html.spec.whatwg.org/multipage/server-sent-events.html).
 */

/** One event: `id`, `event` and `data` lines and the empty line that dispatches it. `data` may hold line ends. */
export function eventText(event: {
  readonly id: string;
  readonly type: string;
  readonly data: string;
}): string {
  const data = event.data.split(/\r\n|\r|\n/).map((line) => `data: ${line}\n`);
  return `id: ${event.id}\nevent: ${event.type}\n${data.join('')}\n`;
}

/**
 * What a stream begins with: how long a client waits before it comes back, and the id to resume from. A block without
 * data dispatches nothing but is remembered as the last event id, so that a line that breaks before the first event
 * is resumed as well.
 */
export function openingText(retryMs: number, id: string): string {
  return `retry: ${retryMs}\n\nid: ${id}\n\n`;
}

/** A comment line: ignored by the client, it keeps proxies and sleeping radios from closing the line. */
export const heartBeatText = ': beat\n\n';

/** The data of a block as {@link eventText} wrote it; null for one without. */
export function dataIn(block: string): string | null {
  const lines = block.split('\n').filter((line) => line.startsWith('data: '));
  return lines.length === 0 ? null : lines.map((line) => line.slice('data: '.length)).join('\n');
}
