import { arrivalSentences } from './english-arrival.ts';
import { bagSentences } from './english-bag.ts';
import { cardSentences } from './english-card.ts';
import { colourSentences } from './english-colour.ts';
import { copySentences } from './english-copy.ts';
import { deliverSentences } from './english-deliver.ts';
import { developSentences } from './english-develop.ts';
import { exposedSentences } from './english-exposed.ts';
import { handOverSentences } from './english-hand-over.ts';
import { jobSentences } from './english-job.ts';
import { keepSentences } from './english-keep.ts';
import { lineSentences } from './english-line.ts';
import { lineCheckSentences } from './english-line-check.ts';
import { lineCureSentences } from './english-line-cures.ts';
import { lineSpeedSentences } from './english-line-speed.ts';
import { lookSentences } from './english-look.ts';
import { pageSentences } from './english-page.ts';
import { pictureSentences } from './english-picture.ts';
import { placeSentences } from './english-place.ts';
import { rehearsalSentences } from './english-rehearsal.ts';
import { reportSentences } from './english-report.ts';
import { sendSentences } from './english-send.ts';
import { sharpSentences } from './english-sharp.ts';
import { slateSentences } from './english-slate.ts';
import { standInSentences } from './english-stand-in.ts';
import { stationSentences } from './english-station.ts';
import { strikeSentences } from './english-strike.ts';
import { systemCures, systemSentences } from './english-system.ts';
import { webSentences } from './english-web.ts';
import type { SentenceTable } from './phrases.ts';

/** Every English sentence, one table per subject. */
export const english: SentenceTable = {
  ...arrivalSentences,
  ...sharpSentences,
  ...exposedSentences,
  ...placeSentences,
  ...colourSentences,
  ...jobSentences,
  ...keepSentences,
  ...copySentences,
  ...deliverSentences,
  ...sendSentences,
  ...handOverSentences,
  ...bagSentences,
  ...cardSentences,
  ...developSentences,
  ...lineSentences,
  ...lineCheckSentences,
  ...lineCureSentences,
  ...lineSpeedSentences,
  ...lookSentences,
  ...pictureSentences,
  ...rehearsalSentences,
  ...reportSentences,
  ...pageSentences,
  ...webSentences,
  ...slateSentences,
  ...standInSentences,
  ...stationSentences,
  ...strikeSentences,
  ...systemSentences,
  ...systemCures,
};
