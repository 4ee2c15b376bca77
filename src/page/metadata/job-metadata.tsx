import { type ReactNode, useState } from 'react';
import type { Frame, Job } from '../../contract/index.ts';
import { metadataLabels as labels } from '../../words/index.ts';
import { DraftPlace } from '../job/drafts.ts';
import type { Save } from '../job/use-save.ts';
import { FrameExample } from './frame-example.tsx';
import { KeptSheets } from './kept-sheets.tsx';
import { PrivateChoices } from './private-choices.tsx';
import { SheetField, type SheetProps, SourceTypeChoice } from './sheet-field.tsx';
import { sheetOfJob } from './sheet-parts.ts';

interface JobMetadataProps {
  readonly job: Job;
  readonly jobs: readonly Job[];
  readonly frames: readonly Frame[];
  readonly save: Save;
}

/**
 * What is written into the files of this job's deliveries: folded, since it is written once for a client and the page is long.
 * Those of a closed job are read and kept for another, and not changed.
 */
export function JobMetadata(props: JobMetadataProps): ReactNode {
  const [open, setOpen] = useState(false);
  return (
    <section aria-labelledby="words-in-files" className="metadata">
      <h2 id="words-in-files">{labels.title}</h2>
      <p className="aside">{labels.about}</p>
      <p>
        <button type="button" className="press" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? labels.fold : props.job.state === 'closed' ? labels.read : labels.write}
        </button>
      </p>
      {open ? <Words {...props} /> : null}
    </section>
  );
}

/** Each text is taken as it is left, one act each. */
function Words({ job, jobs, frames, save }: JobMetadataProps): ReactNode {
  const sheet = sheetOfJob(job);
  return (
    <>
      <KeptSheets job={job} jobs={jobs} save={save} />
      {typeof sheet === 'string' ? (
        <p className="refusal">{labels.unreadable + sheet}</p>
      ) : (
        <fieldset disabled={job.state === 'closed'} className="sheet-part">
          <legend className="unseen">{labels.title}</legend>
          <SheetParts job={job} sheet={sheet} save={save} />
        </fieldset>
      )}
      <h3>{labels.example}</h3>
      <FrameExample job={job} frames={frames} />
    </>
  );
}

const mainFields = ['creators', 'copyright', 'credit', 'rightsPage', 'usageTerms', 'caption'] as const;
const contactFields = [
  'email',
  'phone',
  'website',
  'address',
  'postcode',
  'city',
  'province',
  'country',
] as const;
const placeFields = ['sublocation', 'city', 'province', 'country', 'countryCode'] as const;
const furtherFields = ['title', 'creatorTitle', 'source', 'captionWriter', 'jobId', 'instructions'] as const;
const shotFields = ['caption', 'altText', 'keywords', 'persons'] as const;

function SheetParts(props: SheetProps): ReactNode {
  const { job, sheet } = props;
  const names = [...new Set(job.shots.map(({ name }) => name))].filter((name) => name !== '');
  const lost = Object.keys(sheet.shots).filter((name) => !names.includes(name));
  return (
    <>
      <Fields {...props} part={['all']} fields={['headline', 'keywords', ...mainFields]}>
        <SourceTypeChoice {...props} />
      </Fields>
      <details>
        <summary>{labels.contact}</summary>
        <Fields {...props} part={['all', 'contact']} fields={contactFields} />
      </details>
      <details>
        <summary>{labels.place}</summary>
        <Fields {...props} part={['all', 'placeCreated']} fields={placeFields} />
      </details>
      <details>
        <summary>{labels.more}</summary>
        <Fields {...props} part={['all']} fields={furtherFields} />
      </details>
      {names.map((name) => (
        <details key={name}>
          <summary>
            {labels.ofShot(name)} {sheet.shots[name] === undefined ? null : <em>{labels.said}</em>}
          </summary>
          <Fields {...props} part={['shots', name]} fields={shotFields} />
        </details>
      ))}
      {lost.length === 0 ? null : <p>{labels.lost(lost.join(', '))}</p>}
      <PrivateChoices {...props} />
    </>
  );
}

interface FieldsProps extends SheetProps {
  readonly part: readonly [string, ...string[]];
  readonly fields: readonly string[];
  readonly children?: ReactNode;
}

function Fields({ part, fields, children, ...props }: FieldsProps): ReactNode {
  return (
    <DraftPlace value={`${props.job.code} ${part.join(' ')} words`}>
      <div className="entries-two entries-pair">
        {fields.map((field) => (
          <SheetField key={field} {...props} path={[...part, field]} />
        ))}
        {children}
      </div>
    </DraftPlace>
  );
}
