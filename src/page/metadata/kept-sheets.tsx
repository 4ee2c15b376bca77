import { type ReactNode, useId, useState } from 'react';
import type { Job } from '../../contract/index.ts';
import { metadataLabels as labels, sentence } from '../../words/index.ts';
import type { Save } from '../job/use-save.ts';
import { bringMetadataSheetBack, forgetMetadataSheet, patchJob } from '../link/index.ts';
import { KeepAs } from './keep-as.tsx';
import { lastTitleOf, sheetOfJob } from './sheet-parts.ts';
import { useKeptSheets } from './use-kept-sheets.ts';

interface KeptSheetsProps {
  readonly job: Job;
  readonly jobs: readonly Job[];
  readonly save: Save;
}

/** Words that are kept for further jobs: used here, kept from here, forgotten and brought back. */
export function KeptSheets({ job, jobs, save }: KeptSheetsProps): ReactNode {
  const id = useId();
  const { sheets, broken, told, tell } = useKeptSheets();
  const [chosen, setChosen] = useState<string | null>(null);
  const [forgotten, setForgotten] = useState<string | null>(null);
  const last = lastTitleOf(job, jobs);
  const offered =
    sheets.find(({ title }) => title === chosen) ?? sheets.find(({ title }) => title === last) ?? sheets[0];
  const own = sheetOfJob(job);
  const bringBack = async (title: string): Promise<string> => {
    await bringMetadataSheetBack(title);
    setForgotten(null);
    setChosen(title);
    return labels.keptAgain(title);
  };
  return (
    <fieldset className="metadata-kept">
      <legend>{labels.kept}</legend>
      {offered === undefined ? (
        <p>{labels.noneKept}</p>
      ) : (
        <div className="entry">
          <label htmlFor={id}>{labels.keptSheet}</label>
          <span className="metadata-row">
            <select id={id} value={offered.title} onChange={({ target }) => setChosen(target.value)}>
              {sheets.map((each) => (
                <option key={each.title} value={each.title}>
                  {each.title === last ? `${each.title} (${labels.lastOf(job.client)})` : each.title}
                </option>
              ))}
            </select>
            <button
              type="button"
              className="press"
              disabled={job.state === 'closed'}
              onClick={() =>
                tell(() => save(({ version }) => patchJob(job.code, { metadata: offered.text }, version)))
              }
            >
              {labels.use}
            </button>
            <button
              type="button"
              className="press"
              onClick={() =>
                tell(async () => {
                  await forgetMetadataSheet(offered.title);
                  setForgotten(offered.title);
                  return labels.forgotten(offered.title);
                })
              }
            >
              {labels.forget}
            </button>
          </span>
          <small>{labels.useReplaces}</small>
        </div>
      )}
      {job.metadata === '' || typeof own === 'string' ? null : (
        <KeepAs sheet={own} tell={tell} onKept={setChosen} />
      )}
      {broken.map(({ file, findings }) => (
        <p key={file} className="refusal">
          {labels.broken(file, findings.map((each) => sentence(each)).join(' '))}
        </p>
      ))}
      <div className="metadata-row">
        <p role="status">{told}</p>
        {forgotten === null ? null : (
          <button type="button" className="press" onClick={() => tell(() => bringBack(forgotten))}>
            {labels.bringBack}
          </button>
        )}
      </div>
    </fieldset>
  );
}
