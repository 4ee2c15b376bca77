/** What stands on a call sheet beside the job's own words. */
export const callSheetLabels = {
  print: 'Print',
  back: 'Back to the job',
  toJobs: 'To the jobs',
  job: 'Job',
  client: 'For',
  days: 'When',
  place: 'Where',
  shots: 'Shots',
  camera: 'Camera',
  anyCamera: 'any camera',
  wanted: 'Wanted',
  taken: 'taken',
  agreed: 'client agreed',
  mustBeGood: 'Must be good',
  notes: 'Notes',
  careTitle: 'Take care',
  noDay: 'no day set',
  noPlace: 'no place set',
  noShots: 'No shots yet.',
  written: (when: string): string => `As it stood on ${when}.`,
  until: (from: string, to: string): string => `${from} to ${to}`,
} as const;

/** What can hurt somebody or lose something on the set. General care, no instruction: makers and local rules stand over it. */
export const careLines: readonly string[] = [
  'Plain FTP sends the camera’s password in clear: on a private network only; else FTPS or SFTP.',
  'Strobes and other mains-powered lights, booms and stands: follow the makers’ instructions and the local rules; secure and weight what hangs over people.',
  'Keep mains leads dry and off the floor where water is used; switch off at the mains before anything is rigged or moved.',
  'Wipe no card before the station says that its frames are whole and in two places.',
];
