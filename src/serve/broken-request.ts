import { STATUS_CODES } from 'node:http';
import type { Socket } from 'node:net';
import { errorCode } from '../base/index.ts';
import type { WebProblemCode } from './errors.ts';
import { makeProblem } from './problems.ts';
import { securityHeaderLines } from './security-headers.ts';

/** Answers bytes that are no HTTP request, over-long headers and requests that never end; then the line is closed. */
export function answerBrokenRequest(error: Error, socket: Socket): void {
  if (errorCode(error) === 'ECONNRESET' || socket.destroyed) return;
  if (socket.writable) socket.write(brokenAnswer(problemCodeOf(error)));
  socket.destroySoon();
}

function problemCodeOf(error: Error): WebProblemCode {
  switch (errorCode(error)) {
    case 'ERR_HTTP_REQUEST_TIMEOUT':
      return 'request-timeout';
    case 'HPE_HEADER_OVERFLOW':
      return 'headers-too-large';
    default:
      return 'bad-request';
  }
}

function brokenAnswer(code: WebProblemCode): string {
  const problem = makeProblem(code, 'The request is not HTTP as this station reads it.');
  const body = JSON.stringify(problem);
  return (
    `HTTP/1.1 ${problem.status} ${STATUS_CODES[problem.status]}\r\n` +
    `content-type: application/problem+json\r\ncontent-length: ${Buffer.byteLength(body)}\r\n` +
    `connection: close\r\n${securityHeaderLines}\r\n${body}`
  );
}
