import type { FastifyRequest } from 'fastify';
import type { Problem } from '../contract/index.ts';
import type { StationDesk } from './desk.ts';
import { callerOf } from './guard.ts';

export type NowDesk = Pick<StationDesk, 'frame' | 'job' | 'lastAct'>;

const meanwhile: ReadonlySet<string> = new Set(['version-changed', 'changed-meanwhile']);

/**
 * Who comes second is told how things stand now and who was first, so that nothing has to be guessed. What cannot be told is
 * left out: the refusal itself stands.
 */
export async function withNow(desk: NowDesk, request: FastifyRequest, problem: Problem): Promise<Problem> {
  if (!meanwhile.has(problem.code)) return problem;
  try {
    const now = await nowOf(desk, request);
    return now === null ? problem : { ...problem, now };
  } catch {
    return problem;
  }
}

async function nowOf(desk: NowDesk, request: FastifyRequest): Promise<NonNullable<Problem['now']> | null> {
  const { id, job } = paramsOf(request);
  // Names of others are the operator's to know.
  const isOperator = callerOf(request).scope === 'operator';
  if (id !== undefined) {
    const frame = await desk.frame(id);
    if (frame === null) return null;
    const { version, mark, shot } = frame;
    return { version, mark, shot, act: isOperator ? await desk.lastAct({ frame: id }) : null };
  }
  const found = job === undefined ? null : await desk.job(job);
  if (found === null || job === undefined) return null;
  return { version: found.version, act: isOperator ? await desk.lastAct({ job }) : null };
}

function paramsOf({ params }: FastifyRequest): { readonly id?: string; readonly job?: string } {
  if (typeof params !== 'object' || params === null) return {};
  return {
    ...('id' in params && typeof params.id === 'string' ? { id: params.id } : {}),
    ...('job' in params && typeof params.job === 'string' ? { job: params.job } : {}),
  };
}
