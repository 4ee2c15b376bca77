import { type Dispatch, type ReactNode, useEffect, useId, useState } from 'react';
import type { ImportReport, Job } from '../../contract/index.ts';
import { jobPageLabels, pageLabels } from '../../words/index.ts';
import { exportAddress, importShots, Refused, wordsOf } from '../link/index.ts';
import type { PageAction } from '../state/index.ts';
import { ImportPreview } from './import-preview.tsx';

interface ListFilesProps {
  readonly job: Job;
  readonly dispatch: Dispatch<PageAction>;
}

/** The station reads no longer list; said here before it is sent, since a long upload to be refused helps nobody. */
const listBytesMax = 8 * 1024 * 1024;

interface Looked {
  readonly file: File;
  readonly report: ImportReport;
}

/** The shot list out and in: what a file would do is shown before it does it. */
export function ListFiles({ job, dispatch }: ListFilesProps): ReactNode {
  const id = useId();
  const [looked, setLooked] = useState<Looked | null>(null);
  const [said, setSaid] = useState('');
  const look = async (file: File | null | undefined): Promise<void> => {
    if (file == null) return;
    setLooked(null);
    setSaid(file.size > listBytesMax ? jobPageLabels.tooLarge : '');
    if (file.size > listBytesMax) return;
    try {
      setLooked({ file, report: await importShots(job.code, file, true) });
    } catch (thrown) {
      setSaid(
        thrown instanceof Refused && thrown.code === 'bad-request'
          ? jobPageLabels.noJson
          : wordsOf(thrown, pageLabels.notTaken),
      );
    }
  };
  const takeIn = async ({ file, report }: Looked): Promise<void> => {
    try {
      // As it was looked at: where the job has changed since, the station says so and the list is looked at again.
      const taken = await importShots(job.code, file, false, report.job.version);
      dispatch({ type: 'event', event: { type: 'job', code: job.code, job: taken.job } });
      setLooked(null);
      setSaid(jobPageLabels.takenIn(taken.lines.filter(({ what }) => what !== 'same').length));
    } catch (thrown) {
      await look(file);
      setSaid(wordsOf(thrown, pageLabels.notTaken));
    }
  };
  const over = useFileDrop(job.state !== 'closed', look);
  return (
    <section className="list-files" aria-labelledby={`${id}-title`} data-over={over}>
      <h2 id={`${id}-title`}>{jobPageLabels.files}</h2>
      <p className="acts">
        <a href={exportAddress(job.code, 'csv')} download={`${job.code}-shots.csv`}>
          {jobPageLabels.exportCsv}
        </a>
        <a href={exportAddress(job.code, 'json')} download={`${job.code}-shots.json`}>
          {jobPageLabels.exportJson}
        </a>
      </p>
      <div className="entry">
        <label htmlFor={`${id}-file`}>{jobPageLabels.chooseFile}</label>
        <input
          id={`${id}-file`}
          type="file"
          accept=".csv,.tsv,.txt,.json,text/csv,application/json"
          aria-describedby={`${id}-help`}
          onChange={(event) => {
            void look(event.target.files?.[0]);
            // The same file, mended, may be chosen again.
            event.target.value = '';
          }}
        />
        <small id={`${id}-help`}>{over ? jobPageLabels.dropHere : jobPageLabels.chooseFileHelp}</small>
      </div>
      <p role="status" className="refusal">
        {said}
      </p>
      {looked === null ? null : (
        <ImportPreview
          name={looked.file.name}
          report={looked.report}
          onTakeIn={() => takeIn(looked)}
          onLeave={() => setLooked(null)}
        />
      )}
    </section>
  );
}

/** Whether a file is dragged over the page; it is taken wherever it is let go, and the browser opens none in our place. */
function useFileDrop(active: boolean, take: (file: File | undefined) => void): boolean {
  const [over, setOver] = useState(false);
  useEffect(() => {
    const hasFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;
    const drag = (event: DragEvent): void => {
      if (!hasFiles(event)) return;
      event.preventDefault();
      setOver(active);
    };
    const leave = (event: DragEvent): void => {
      if (event.relatedTarget === null) setOver(false);
    };
    const drop = (event: DragEvent): void => {
      if (!hasFiles(event)) return;
      event.preventDefault();
      setOver(false);
      if (active) take(event.dataTransfer?.files[0]);
    };
    addEventListener('dragover', drag);
    addEventListener('dragleave', leave);
    addEventListener('drop', drop);
    return () => {
      removeEventListener('dragover', drag);
      removeEventListener('dragleave', leave);
      removeEventListener('drop', drop);
    };
  });
  return over;
}
