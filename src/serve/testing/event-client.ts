import { get, type IncomingMessage } from 'node:http';
import { connect, type Socket } from 'node:net';
import { EventSourceReader } from './event-source.ts';

/** A client of the event stream over a real socket, reading as a browser does. */
export interface EventClient {
  readonly reader: EventSourceReader;
  readonly answer: IncomingMessage;
  /** Whether the station has ended or broken the line. */
  isOver(): boolean;
  leave(): void;
}

export function openEventClient(port: number, lastEventId?: string, query = ''): Promise<EventClient> {
  const headers = lastEventId === undefined ? {} : { 'last-event-id': lastEventId };
  return new Promise((resolve, reject) => {
    const request = get({ host: '127.0.0.1', port, path: `/api/v1/events${query}`, headers }, (answer) => {
      const reader = new EventSourceReader();
      let over = false;
      answer.setEncoding('utf8');
      answer.on('data', (text: string) => reader.feed(text));
      answer.on('error', () => {});
      answer.on('close', () => {
        over = true;
      });
      resolve({ reader, answer, isOver: () => over, leave: () => request.destroy() });
    });
    request.on('error', reject);
  });
}

/** A client that asks for the events and then reads nothing, like a computer put to sleep. */
export function openDeafClient(port: number): Promise<Socket> {
  return new Promise((resolve, reject) => {
    const socket = connect(port, '127.0.0.1', () => {
      socket.pause();
      socket.write(`GET /api/v1/events HTTP/1.1\r\nHost: localhost:${port}\r\n\r\n`);
      resolve(socket);
    });
    socket.on('error', reject);
  });
}
