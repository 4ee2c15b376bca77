/** Words of the pages that show slates and the clock. */
export const slateLabels = {
  title: 'Slates',
  of: (job: string): string => `Slates of ${job}`,
  lead: 'Hold a slate into the picture and press the shutter: its shot is current from that frame on. Flat, lit and sharp; a tenth of the picture’s width is enough.',
  print: 'Print',
  paper: 'Paper',
  what: 'What to print',
  a4: 'A4',
  letter: 'Letter',
  sheet: 'A sheet of all shots',
  pages: 'A page for each shot',
  shot: (number: number): string => `Shot ${number}`,
  greyCard: 'A plain grey card that fills the frame says “next shot”',
  noShots: 'This job has no shots yet: there is nothing to print.',
  noJob: 'No job is open. Open one, or name one in the address.',
  notReached: 'The station does not answer.',
  tooLong: (name: string): string => `${name}: the names of job and shot are too long for a code.`,
  codeOf: (name: string): string => `Code of ${name}`,
} as const;

export const clockLabels = {
  title: 'Clock slate',
  lead: 'Photograph this screen with each camera: sharp, from the front, at 1/100 s or shorter. One frame each is enough.',
  code: 'The time, as a code',
  waiting: 'No camera has photographed the clock yet.',
  notReached: 'The station does not answer: what is shown is not its time.',
  cameras: 'Cameras that have photographed it',
  putRight: (camera: string): string => `Put ${camera} right`,
  right: (camera: string): string => `${camera}’s clock is right, as far as this tells.`,
  link: 'Put the cameras’ clocks right',
} as const;
