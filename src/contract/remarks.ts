import { z } from 'zod';
import { frameShares, speakerKinds } from '../facts/index.ts';
import { frameId } from './fields.ts';
import { instant, sha256Hex } from './primitives.ts';

/** Characters of one remark or answer: a paragraph; longer ones are letters. */
export const remarkCharactersMax = 1000;
/** Characters of the name that somebody gives. */
export const speakerCharactersMax = 60;
/** Heroes that one agreement may cover: more than any shot asks for. */
const agreedPicturesMax = 99;

/** Random enough that two devices never make the same: a UUID (RFC 9562), say. */
const madeId = z
  .string()
  .regex(/^[A-Za-z0-9_-]{8,64}$/)
  .describe(
    'Made where it was said, a UUID for instance. Sent again it counts once, so that what was lost on the way can be sent again',
  );

/**
 * What a terminal would act on is no text; tabs and line ends are. Nor is what turns the words behind it about (embeddings,
 * overrides and isolates of Unicode Standard Annex #9, section 2): a name or an answer would read as what nobody said. Letters
 * that run from right to left do so by themselves.
 */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is taken out.
const controls = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f\u202a-\u202e\u2066-\u2069]/g;

const said = z
  .string()
  .max(remarkCharactersMax)
  .overwrite((given) => given.replace(/\r\n?/g, '\n').replace(controls, '').trim())
  .refine((given) => given !== '', 'a text is wanted')
  .describe('Plain text: nothing in it is markup');

const speakerName = z
  .string()
  .overwrite((given) => given.replace(controls, ' ').trim())
  .min(1)
  .max(speakerCharactersMax)
  .describe('Who says so; wanted of a guest, else the name of the link or the operator');

export const speaker = z
  .object({
    name: z.string(),
    from: z.enum(speakerKinds).describe('By a link for guests or for a pocket, or as the operator'),
    link: z.string().nullable().describe('Name of the link; told to the operator only'),
  })
  .meta({ id: 'Speaker', description: 'Who said something' });

const share = z.number().min(0).max(1);
const point = z.object({ x: share, y: share }).strict();

export const remarkAnswer = z
  .object({ id: z.string(), text: z.string(), by: speaker, at: instant })
  .meta({ id: 'RemarkAnswer', description: 'An answer to a remark' });

export const remark = z
  .object({
    id: z.string(),
    point: z
      .object({ x: z.number(), y: z.number() })
      .nullable()
      .describe('Shares of the whole upright original, as in `picture.original`; null: about all of it'),
    text: z.string(),
    inside: z.boolean().describe('Guests are not told of it'),
    by: speaker,
    at: instant,
    settled: z.object({ by: speaker, at: instant }).nullable().describe('null while it is open'),
    answers: z.array(remarkAnswer),
  })
  .meta({ id: 'Remark', description: 'A note pinned to a point of a frame' });

export const remarkList = z
  .object({ remarks: z.array(remark) })
  .meta({ id: 'RemarkList', description: 'The remarks of a frame, the oldest first' });

export const newRemark = z
  .object({
    id: madeId,
    name: speakerName,
    point: point
      .nullable()
      .describe('Shares of the whole upright original, so that it stays in place under another look'),
    text: said,
    inside: z.boolean().describe('Not for guests; a guest’s own is never so'),
  })
  .partial({ name: true, inside: true })
  .strict()
  .meta({ id: 'NewRemark', description: 'A remark to be pinned to a frame' });

export const newAnswer = z
  .object({ id: madeId, name: speakerName, text: said })
  .partial({ name: true })
  .strict()
  .meta({ id: 'NewAnswer', description: 'An answer to a remark; a guest’s opens a settled one again' });

export const remarkSettling = z
  .object({ settled: z.boolean(), name: speakerName })
  .partial({ name: true })
  .strict()
  .meta({ id: 'RemarkSettling', description: 'Whether a remark is settled, or open again' });

const seenPicture = z.object({
  frame: frameId,
  look: z.string().max(64).describe('`picture.look` of the frame as it was seen'),
  profile: sha256Hex.nullable().describe('`picture.target.profile` of it; null where there is none'),
});

export const agreement = z
  .object({
    id: z.string(),
    shot: z.string(),
    pictures: z.array(seenPicture).describe('The heroes of the shot as they were seen then'),
    by: speaker,
    at: instant,
  })
  .meta({
    id: 'Agreement',
    description:
      'Somebody’s word on a shot. Where the heroes, or how they look, are others now, it is older than the picture',
  });

export const agreementList = z
  .object({ agreements: z.array(agreement) })
  .meta({ id: 'AgreementList', description: 'Who agreed to which shot, the oldest first' });

export const newAgreement = z
  .object({
    id: madeId,
    name: speakerName,
    pictures: z.array(seenPicture.strict()).min(1).max(agreedPicturesMax).describe('Every hero of the shot'),
    again: z
      .boolean()
      .describe(
        'Whoever agreed by this name on another device was the same person, whose word this replaces',
      ),
  })
  .partial({ name: true, again: true })
  .strict()
  .meta({ id: 'NewAgreement', description: 'Somebody agrees to a shot as they see it' });

export const frameShare = z
  .enum(frameShares)
  .nullable()
  .describe(
    'Whether guests see it, said by hand; null: by its mark, hero, select and alternate are shown. What is put aside or is no picture is never shown',
  );

export type Speaker = z.infer<typeof speaker>;
export type Remark = z.infer<typeof remark>;
export type RemarkAnswer = z.infer<typeof remarkAnswer>;
export type NewRemark = z.infer<typeof newRemark>;
export type NewAnswer = z.infer<typeof newAnswer>;
export type RemarkSettling = z.infer<typeof remarkSettling>;
export type Agreement = z.infer<typeof agreement>;
export type NewAgreement = z.infer<typeof newAgreement>;
