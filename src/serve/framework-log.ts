import type { FastifyBaseLogger } from 'fastify';
import type { WebLog } from './web-log.ts';

const silent = (): void => {};

/** Passes on what the framework itself warns of, such as a disk that fails in the middle of an answer. */
export function frameworkLog(log: WebLog): FastifyBaseLogger {
  const pass = (level: 'warn' | 'error') => (details: unknown, message?: unknown) => {
    const error =
      typeof details === 'object' && details !== null && 'err' in details ? details.err : undefined;
    log({ level, event: 'framework', details: { message: String(message ?? details) }, error });
  };
  const logger: FastifyBaseLogger = {
    level: 'warn',
    fatal: pass('error'),
    error: pass('error'),
    warn: pass('warn'),
    info: silent,
    debug: silent,
    trace: silent,
    silent,
    child: () => logger,
  };
  return logger;
}
