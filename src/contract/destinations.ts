import { z } from 'zod';
import { finding } from './primitives.ts';

/** A line without control characters, which would end up in somebody's terminal or log. */
const plain = (charactersMax: number): z.ZodString =>
  z
    .string()
    .trim()
    .max(charactersMax)
    .regex(/^\P{Cc}*$/u);
/** No way up: a destination is a place, and what is sent stays below it. */
const path = plain(1000).refine((text) => !text.split(/[\\/]/).includes('..'), {
  error: 'a path holds no ".."',
});

/** As `ssh-keygen -l` writes it: SHA-256 of the key in base64 without its end (RFC 4648 section 3.2). */
export const hostKeyFingerprint: z.ZodString = z
  .string()
  .regex(/^SHA256:[A-Za-z0-9+/]{43}$/)
  .describe('As ssh-keygen -l writes it');

const folderPlace = z
  .strictObject({
    kind: z.literal('folder'),
    path: path.min(1).describe('From the root of the station’s computer; has to be there'),
  })
  .describe('A folder, such as a disk of the client');

const sftpPlace = z
  .strictObject({
    kind: z.literal('sftp'),
    host: plain(255)
      .regex(/^[^\s/@]+$/)
      .refine((text) => !text.includes(':') || z.ipv6().safeParse(text).success, {
        error: 'a host stands here without its port; the port is said by itself (--port)',
      }),
    port: z.number().int().min(1).max(65_535).default(22),
    user: plain(120).min(1),
    path: path.min(1).default('.').describe('Folder there; . is where the log-in leads'),
    logInBy: z.enum(['password', 'key']).describe('What the secret is: a password, or a private key as text'),
    hostKey: hostKeyFingerprint
      .nullable()
      .default(null)
      .describe('By which the server is known; null: nothing is sent until somebody compared it'),
  })
  .describe('A folder of an SFTP server');

const s3Place = z
  .strictObject({
    kind: z.literal('s3'),
    bucket: plain(255).regex(/^[A-Za-z0-9][A-Za-z0-9._-]+$/),
    region: plain(60).regex(/^[a-z0-9-]+$/),
    endpoint: z
      .url({ protocol: /^https?$/ })
      .max(500)
      .refine((text) => !text.includes('@'), { error: 'a log-in does not belong into the address' })
      .nullable()
      .default(null)
      .describe('Address of the service; null: by the region'),
    prefix: path.default('').describe('Goes before every name'),
    pathStyle: z.boolean().default(false).describe('Whether the bucket stands in the path of the address'),
    accessKeyId: plain(200).min(1).describe('The public half; the secret is the other one'),
  })
  .describe('A bucket of S3-compatible storage');

export const destinationPlace = z.discriminatedUnion('kind', [folderPlace, sftpPlace, s3Place]);

export const destinationName = z
  .string()
  .regex(/^[a-z0-9][a-z0-9-]{0,39}$/)
  .describe('1 to 40 small letters, digits and hyphens');

export const destination = z
  .object({
    name: destinationName,
    place: destinationPlace,
    secret: z
      .enum(['kept', 'environment', 'command'])
      .nullable()
      .describe('Where the secret comes from; the secret itself is never answered. Null: there is none'),
  })
  .meta({ id: 'Destination', description: 'Where deliveries are sent' });

export const destinationList = z
  .object({ destinations: z.array(destination) })
  .meta({ id: 'DestinationList', description: 'Destinations of this station, by name' });

export const putDestination = z
  .strictObject({
    place: destinationPlace,
    secret: z
      .string()
      .min(1)
      .max(16_384)
      .optional()
      .describe(
        'Kept by the station and never told again. Left out: as it was, unless the place is another server or log-in',
      ),
  })
  .extend({
    name: destinationName
      .optional()
      .describe('Another name for it from now on; left out: the one in the address'),
  })
  .meta({ id: 'PutDestination', description: 'A destination as it is to be' });

export const destinationTest = z
  .object({
    ok: z.boolean(),
    hostKey: hostKeyFingerprint.nullable().describe('What an SFTP server showed'),
    findings: z.array(finding).describe('What is wrong, or is to be said of it'),
  })
  .meta({
    id: 'DestinationTest',
    description: 'What came of sending a small file there, reading it back and taking it away again',
  });

export type DestinationPlace = z.infer<typeof destinationPlace>;
export type Destination = z.infer<typeof destination>;
export type DestinationTest = z.infer<typeof destinationTest>;
export type PutDestination = z.infer<typeof putDestination>;
