import { z } from 'zod';
import { problem } from '../contract/index.ts';
import { type WebProblemCode, webProblems } from './errors.ts';

/** How an answer is described to OpenAPI where it is not plain JSON. */
interface DescribedAnswer {
  readonly description: string;
  readonly content: Record<string, { readonly schema: z.ZodType }>;
}

/** `responses` for problems, one per status, and a last one for those that any call may give. */
export function problemAnswers(...codes: readonly WebProblemCode[]): Record<string, DescribedAnswer> {
  const answers: Record<string, DescribedAnswer> = { default: problemAnswer('Any other problem') };
  for (const code of codes) {
    const { status, title } = webProblems[code];
    answers[status] = problemAnswer(`${title} (\`${code}\`)`);
  }
  return answers;
}

/** A JSON document of this shape: checked before it leaves. */
export function jsonAnswer<Shape extends z.ZodType>(
  description: string,
  schema: Shape,
): { readonly description: string; readonly content: { 'application/json': { readonly schema: Shape } } } {
  return { description, content: { 'application/json': { schema } } };
}

/** Bytes of one of these media types: described, sent as they are. */
export function bytesAnswer(description: string, ...mediaTypes: readonly string[]): DescribedAnswer {
  return {
    description,
    content: Object.fromEntries(mediaTypes.map((type) => [type, { schema: z.any() }])),
  };
}

/** 304: what the caller has is still right. */
export const unchangedAnswer: z.ZodUndefined = z
  .undefined()
  .describe('Unchanged since it was last fetched (`If-None-Match`)');

function problemAnswer(description: string): DescribedAnswer {
  return { description, content: { 'application/problem+json': { schema: problem } } };
}
