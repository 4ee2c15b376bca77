/**
 * Texts and lists that others than the operator are told, by their names, wherever they stand in an answer or event. What
 * is not named here leaves empty, so that a new field is kept back until somebody has decided: passwords and log-ins,
 * folders of this computer, addresses of cameras. Figures, yes and no, and the shape around them are told.
 */
const told: ReadonlySet<string> = new Set([
  // Of everything.
  ...[
    'type',
    'change',
    'code',
    'id',
    'name',
    'title',
    'kind',
    'state',
    'status',
    'version',
    'at',
    'now',
    'next',
    'text',
  ],
  // Of a frame.
  ...[
    'frames',
    'frame',
    'job',
    'shot',
    'camera',
    'files',
    'sha256',
    'places',
    'readBack',
    'shutter',
    'began',
    'firstByte',
  ],
  ...[
    'firstView',
    'lastByte',
    'kept',
    'rendered',
    'judged',
    'cameraMake',
    'cameraModel',
    'lensModel',
    'source',
    'look',
  ],
  ...[
    'judgement',
    'findings',
    'unit',
    'suggestedMark',
    'shotless',
    'toldBy',
    'mark',
    'purpose',
    'acceptances',
    'question',
    'reason',
    'remarks',
    'answers',
    'by',
    'share',
    'own',
    'wish',
    'hash',
    'lookId',
    'toOriginal',
  ],
  // Of a job and its series.
  ...[
    'client',
    'from',
    'to',
    'place',
    'notes',
    'naming',
    'deliveries',
    'takenAway',
    'shots',
    'currentShot',
    'description',
    'reference',
  ],
  ...['baselines', 'layout', 'mutes', 'order', 'requires', 'series'],
  ...['agreements', 'pictures'],
  // Of the client's screen.
  ...['screens', 'delivery', 'copySpace'],
  ...['target', 'targets', 'targetEdition', 'toleranceSet', 'profile'],
  // Of the station and of who asks.
  ...[
    'doors',
    'cameras',
    'protocols',
    'expects',
    'lastSeen',
    'incoming',
    'why',
    'secondPlaces',
    'kept',
    'fingerprint',
    'notAfter',
  ],
  ...['scope', 'ends'],
]);

/** Figures of a finding have names of their own, which its sentence needs; these are folders, addresses and log-ins. */
const blankArgs: ReadonlySet<string> = new Set([
  ...[
    'place',
    'file',
    'local',
    'command',
    'message',
    'other',
    'folder',
    'path',
    'home',
    'address',
    'user',
    'password',
  ],
]);

/** The same value without secrets, of the same shape; what it is made from is left as it is. */
export function withoutSecrets(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutSecrets);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, held]) => [name, name === 'args' ? argsOf(held) : heldBy(name, held)]),
  );
}

function heldBy(name: string, held: unknown): unknown {
  if (!told.has(name) && typeof held === 'string') return name === 'password' ? null : '';
  if (!told.has(name) && Array.isArray(held)) return [];
  return withoutSecrets(held);
}

function argsOf(args: unknown): unknown {
  if (typeof args !== 'object' || args === null) return args;
  return Object.fromEntries(
    Object.entries(args).map(([name, held]) => [name, blankArgs.has(name) ? '' : held]),
  );
}
