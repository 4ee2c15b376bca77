import { z } from 'zod';
import { expectedFiles } from '../facts/index.ts';
import { finding, instant } from './primitives.ts';

const port = z.number().int().min(0).max(65535);

export const door = z.object({
  name: z.enum(['web', 'ftp', 'ftps', 'sftp']),
  port: port.nullable().describe('null while the door is shut'),
  trouble: finding.nullable().describe('Why it is shut, if somebody should mend it'),
  hostKeys: z
    .array(z.object({ kind: z.enum(['ed25519', 'ecdsa', 'rsa']), fingerprint: z.string() }))
    .optional()
    .describe('SFTP: the keys a client is shown, as ssh-keygen -l prints their fingerprints'),
});

/** Far longer than the line of any key that is taken; a private key that was pasted fits too, and is told apart. */
const keyLineMax = 20_000;

export const cameraKey = z.object({
  kind: z
    .enum(['ed25519', 'ecdsa', 'rsa', 'none'])
    .describe('none where what was written by hand is no key: it lets nobody in'),
  fingerprint: z.string().describe('As ssh-keygen -l prints it: SHA256: and base64'),
  comment: z.string(),
});

export const cameraEntry = z.object({
  name: z.string(),
  user: z.string(),
  password: z.string().nullable().describe('Shown to the operator only'),
  allow: z
    .array(z.string())
    .describe('Where it may come from: addresses, networks, hardware addresses; empty for everywhere'),
  protocols: z
    .array(z.enum(['ftp', 'ftps', 'sftp']))
    .describe('Doors it may come in by; empty for one that only comes by a watched folder'),
  keys: z.array(cameraKey).describe('Public keys by which it may come in by SFTP'),
  rowTimeUs: z
    .number()
    .nullable()
    .describe(
      'From one row of its sensor to the next under the electronic shutter, µs: tells the frequency of lamps that pulse; null where nobody said',
    ),
  watched: z
    .array(z.string())
    .describe('Folders of the station’s computer that come in as this camera’s files, while it is not ended'),
  ended: z.boolean().describe('It may not come in any more; what it sent stays'),
  connected: z.boolean(),
  lastSeen: instant.nullable(),
  expects: z
    .enum(expectedFiles)
    .nullable()
    .describe('Which files of each frame the camera is set to send; null where nobody has said'),
  clockOffsetMs: z
    .number()
    .int()
    .describe('Added to the camera’s own time for frames that arrive now, ms; 0 where nobody has said'),
  clockSeen: z
    .object({
      offsetMs: z.number().int().describe('The right time minus the camera’s, ms: what to say as `clock`'),
      plusMinusMs: z.number().int().nonnegative().describe('How sure that is, ms'),
      frame: z.string(),
      at: instant,
    })
    .nullable()
    .describe('Its clock as the last clock slate it photographed showed it, since the station started'),
  trouble: finding
    .nullable()
    .describe('What to look after at the camera, such as a long silence while shooting'),
  log: z
    .array(
      z.object({
        at: instant,
        camera: z.string().nullable().describe('null for a client that never got in: it may be this camera'),
        finding,
      }),
    )
    .describe('The newest attempts of this camera and of clients that never got in, newest last'),
});

const accessWishes = {
  allow: z.array(z.string().max(64)).max(32),
  protocols: z.array(z.enum(['ftp', 'ftps', 'sftp'])).max(3),
  addKeys: z
    .array(z.string().max(keyLineMax))
    .max(16)
    .describe('Public keys for SFTP to add, each as the one line of a .pub file of OpenSSH'),
};

/** A camera that lost its battery begins in some year 1980 or 2000; a century is more than any clock is wrong. */
export const clockOffsetMsMax: number = 100 * 366 * 86_400_000;

export const newCamera = z
  .object({
    name: z.string().min(1).max(40).describe('1 to 40 letters from a to z, digits and hyphens'),
    ...accessWishes,
  })
  .partial({ allow: true, protocols: true, addKeys: true })
  .strict()
  .meta({ id: 'NewCamera', description: 'A camera that may come in from now on' });

export const cameraPatch = z
  .object({
    ...accessWishes,
    dropKeys: z.array(z.string().max(100)).max(16).describe('Fingerprints of keys that are to go'),
    rowTimeUs: z.number().positive().max(1000).nullable(),
    ended: z.boolean(),
    newPassword: z.literal(true).describe('A fresh one in the place of the old'),
    expects: z.enum(expectedFiles).nullable(),
    clock: z
      .object({
        offsetMs: z
          .number()
          .int()
          .min(-clockOffsetMsMax)
          .max(clockOffsetMsMax)
          .describe('The right time minus the camera’s, ms'),
        since: z
          .enum(['always', 'now'])
          .describe('For all of its frames, or for those that arrive from now on'),
      })
      .strict(),
    quiet: z.literal(true).describe('Not shooting now: no word about a silence until its next frame'),
  })
  .partial()
  .strict()
  .meta({ id: 'CameraPatch', description: 'What people say of a camera; what is left out stays' });

export const jobSummary = z
  .object({
    code: z.string(),
    title: z.string(),
    client: z.string(),
    shots: z.array(
      z.object({
        id: z.string(),
        name: z.string(),
        order: z
          .array(z.string())
          .optional()
          .describe('Ids of its chosen frames in their order, for a guest'),
      }),
    ),
    currentShot: z.string().nullable().optional().describe('The shot that frames go to as they come'),
  })
  .meta({ id: 'JobSummary', description: 'The open job with its shots, for the eye' });

export const secondPlace = z
  .object({
    folder: z.string(),
    otherDevice: z
      .boolean()
      .nullable()
      .describe(
        'false where its copies do not count: it lies on the device of the home, or in memory; null while away',
      ),
    waiting: z.number().int().nonnegative().describe('Originals that are not there yet'),
    trouble: finding
      .nullable()
      .describe('Why nothing can be copied there now, or which originals wait in vain'),
  })
  .meta({ id: 'SecondPlace', description: 'A folder that everything is copied to, behind the camera' });

export const incomingHeld = z
  .object({
    why: z
      .enum([
        'arriving',
        'waiting',
        'same-as-original',
        'made-good',
        'let-go',
        'folded',
        'moved',
        'unrecorded',
      ])
      .describe(
        'On its way; broken off and waited for; sent again though kept; cut and whole by a later one; let go by a person; about to be given back; left by a crash; not in the journal',
      ),
    files: z.number().int().positive(),
    bytes: z.number().nonnegative(),
  })
  .meta({ id: 'IncomingHeld', description: 'Files in incoming/ that lie there for the same reason' });

export const rootCertificate = z
  .object({
    name: z.string(),
    fingerprint: z.string().describe('SHA-256, pairs of capital hexadecimal digits with colons'),
    notAfter: instant,
  })
  .meta({
    id: 'RootCertificate',
    description:
      'The root by which a camera knows the station, for FTPS; to import: /api/v1/station/certificate.pem or .crt',
  });

export const station = z
  .object({
    version: z.string(),
    now: instant,
    home: z.string(),
    addresses: z
      .array(
        z.object({
          address: z.string(),
          family: z.enum(['IPv4', 'IPv6']),
          interface: z.string(),
          private: z.boolean(),
          beside: z
            .boolean()
            .describe(
              'Of a bridge to guests of this computer, or of a tunnel: given to a camera only where there is no other',
            ),
        }),
      )
      .describe(
        'Where cameras are served: every private address of this computer, or what --bind names; loopback only where no other is served',
      ),
    doors: z.array(door),
    passive: z.object({ from: port, to: port }),
    encryptedOnly: z.boolean().describe('Cameras must log in and send encrypted'),
    certificate: rootCertificate.nullable().describe('null where the station speaks no TLS'),
    disk: z.object({
      freeBytes: z.number().nonnegative(),
      totalBytes: z.number().nonnegative(),
      floorBytes: z
        .number()
        .nonnegative()
        .describe('With less than this free, new frames are refused; what is under way may end'),
    }),
    incoming: z
      .array(incomingHeld)
      .describe(
        'What lies in incoming/ and is no original, by why; nothing that only it holds is ever deleted',
      ),
    cameras: z.array(cameraEntry),
    job: jobSummary.nullable().describe('The open job, null while frames go to the tray'),
    secondPlaces: z.array(secondPlace).describe('Where copies go'),
    kept: z
      .array(finding)
      .describe(
        'What is wrong with what is kept: a home in memory, originals that are not as received, the journal; the gravest first',
      ),
    demo: z.boolean(),
  })
  .meta({ id: 'Station', description: 'The running station' });

export const diaryLine = z
  .object({
    at: instant,
    camera: z.string().nullable().describe('null for a client that never got in'),
    address: z.string(),
    finding,
  })
  .meta({ id: 'DiaryLine', description: 'One thing that happened on the line' });

export const diaryPage = z
  .object({
    lines: z.array(diaryLine),
    next: z.string().nullable().describe('Cursor for `before`, null at the end'),
  })
  .meta({ id: 'DiaryPage', description: 'What happened on the line in the last 30 days, newest first' });

export type DiaryPage = z.infer<typeof diaryPage>;
export type Station = z.infer<typeof station>;
export type Door = z.infer<typeof door>;
export type SecondPlace = z.infer<typeof secondPlace>;
export type CameraEntry = z.infer<typeof cameraEntry>;
export type CameraKey = z.infer<typeof cameraKey>;
export type NewCamera = z.infer<typeof newCamera>;
export type CameraPatch = z.infer<typeof cameraPatch>;
export type JobSummary = z.infer<typeof jobSummary>;

/** First line on standard output of `setside station --json`. */
export const readyLine = z.object({
  ready: z.literal(true),
  web: z.string(),
  ftp: port.nullable(),
  ftps: port.nullable(),
  sftp: port.nullable(),
  home: z.string(),
  cameras: z.array(z.object({ name: z.string(), user: z.string(), password: z.string() })),
});
export type ReadyLine = z.infer<typeof readyLine>;

export const health = z
  .object({ status: z.literal('ok'), version: z.string() })
  .meta({ id: 'Health', description: 'The station answers' });
export type Health = z.infer<typeof health>;
