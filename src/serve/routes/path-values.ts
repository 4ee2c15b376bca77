import { z } from 'zod';

/**
 * Values that stand in an address. They are checked for form here and looked up behind the desk: an id or a name is
 * never joined to a path, whatever it holds.
 */
export const id = z
  .string()
  .regex(/^[\w.:-]{1,128}$/)
  .describe('Id as the station gave it out');

/** Names of jobs, shots and cameras: a line of text as people write it, 120 characters at most as everywhere. */
export const shortName = z.string().min(1).max(120);

/** Codes of jobs and ids of shots: journals of earlier versions hold some of 200 characters. */
export const codeOrId = z.string().min(1).max(200);

/** Bytes that a file name may have: the limit of the file systems cameras and stations use (255). */
export const fileNameBytesMax = 255;

export const fileName = z
  .string()
  .min(1)
  .refine((name) => new TextEncoder().encode(name).length <= fileNameBytesMax, 'longer than 255 bytes')
  .refine((name) => name !== '.' && name !== '..', 'not a name')
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is refused
  .refine((name) => !/[\u0000-\u001f\u007f/\\]/.test(name), 'a separator or a control character')
  .describe('Name of the file as the frame lists it');

/** Counts up with a frame's picture, so that each version has an address of its own; the answer does not depend on it. */
export const pictureVersion = z.coerce
  .number()
  .int()
  .nonnegative()
  .optional()
  .describe('Version of the picture: makes an address of its own, changes nothing else');
