import type { WebProblem } from './web-problem.ts';

/** Deliveries, destinations, papers, memory cards, bags. */
export const deliveriesProblems = {
  'bad-specification': {
    status: 422,
    title: 'This is no delivery specification that can be carried out',
    cure: 'See docs/delivery.schema.json for what one may say.',
  },
  'bad-metadata': {
    status: 422,
    title: 'This is no metadata sheet that can be written into files',
    cure: 'See docs/metadata.schema.json for what one may say.',
  },
  'no-such-specification': {
    status: 400,
    title: 'No delivery specification has this name',
    cure: 'Use web-shop, print, social or archive, or send a whole one.',
  },
  'nothing-to-print': {
    status: 409,
    title: 'No frame of the job is to be printed',
    cure: 'Ask for other marks or another shot. On a copy for the client lie only frames that guests see: marked, and rendered.',
  },
  'bad-destination': {
    status: 400,
    title: 'Nothing can be sent to this place',
    cure: 'A folder is named from the root, and lies outside the folder of the station.',
  },
  'no-destination': {
    status: 400,
    title: 'There is no destination of this name',
    cure: 'See /api/v1/destinations for those that are; setside destination add makes one.',
  },
  'destination-there': {
    status: 409,
    title: 'There is a destination of this name already',
    cure: 'Choose another name, or forget that one first.',
  },
  'destination-busy': {
    status: 409,
    title: 'A delivery that has not ended goes to this destination by its name',
    cure: 'Wait until it is done, or end it.',
  },
  'too-many-destinations': {
    status: 409,
    title: 'There are too many destinations',
    cure: 'Forget one that is not used any more.',
  },
  'too-many-sheets': {
    status: 409,
    title: 'There are too many metadata sheets',
    cure: 'Forget one that is not used any more.',
  },
  'sheet-there': {
    status: 409,
    title: 'A metadata sheet of this title is kept already',
    cure: 'Keep that one under another title, or forget it, which takes the place of the one forgotten before.',
  },
  'nothing-to-deliver': {
    status: 409,
    title: 'No frame of the job has a mark that the specification asks for',
    cure: 'Mark frames on the Sheet page, or ask for other marks.',
  },
  'cannot-write-there': {
    status: 507,
    title: 'The folder of the deliveries cannot be written',
    cure: 'Make room on the disk of the station, or give its user the right to write there.',
  },
  'delivery-ended': {
    status: 409,
    title: 'The delivery has ended',
    cure: 'Begin a new one.',
  },
  'card-not-allowed': {
    status: 403,
    title: 'This folder is not read from the page',
    cure: 'Put the card into a reader, so that it is shown as a removable disk; or name the folder when the station starts: --card FOLDER; or check it with the command: setside card FOLDER.',
  },
  'no-card': {
    status: 409,
    title: 'The card is not there',
    cure: 'Put it in, and wait until the computer shows it.',
  },
  'card-busy': {
    status: 409,
    title: 'A card is being checked or taken in already',
    cure: 'Wait until that is done, or end it.',
  },
  'no-card-check': {
    status: 409,
    title: 'No check says what is missing',
    cure: 'Check the card first.',
  },
  'bag-not-allowed': {
    status: 403,
    title: 'No bag is made or checked in this folder from the page',
    cure: 'Put in a removable disk, or make the folder around it a destination: setside destination add NAME --folder DIR; or use the command: setside bag.',
  },
  'bag-busy': {
    status: 409,
    title: 'A bag is being made or checked already',
    cure: 'Wait until that is done, or stop it.',
  },
  'no-camera': {
    status: 400,
    title: 'There is no such camera, or it was ended',
    cure: 'See /api/v1/station for the cameras.',
  },
  'try-overtaken': {
    status: 409,
    title: 'A newer try took the place of this one',
    cure: null,
  },
} as const satisfies Record<string, WebProblem>;
