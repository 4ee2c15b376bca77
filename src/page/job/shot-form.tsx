import { type ReactNode, useId, useState } from 'react';
import type { Shot, ShotPatch } from '../../contract/index.ts';
import { type Question, questions } from '../../facts/index.ts';
import { framesPhrase, jobPageLabels, questionNames } from '../../words/index.ts';
import { LayoutPicture } from '../choices/layout-picture.tsx';
import { LayoutUpload } from '../choices/layout-upload.tsx';
import { patchShot, removeShot } from '../link/index.ts';
import { DraftPlace } from './drafts.ts';
import { withLimits } from './limits-in.ts';
import { LookChoice } from './look-choice.tsx';
import type { ShotRowProps } from './shot-row-props.ts';
import { TextField } from './text-field.tsx';
import { ToleranceRows } from './tolerance-rows.tsx';

/** Everything that is said of one shot. */
export function ShotForm({ job, shot, stop, cameras, looks, save }: ShotRowProps): ReactNode {
  const id = useId();
  const [refusal, setRefusal] = useState('');
  /** What is changed of a list is changed of the one that stands by then. */
  const putAs = (patchOf: (now: Shot) => ShotPatch): Promise<string> =>
    save(({ shots, version }) => {
      const now = shots.find((each) => each.id === shot.id) ?? shot;
      return patchShot(job.code, shot.id, patchOf(now), version);
    });
  const put = (patch: ShotPatch): Promise<string> => putAs(() => patch);
  const set = async (patch: ShotPatch): Promise<void> => setRefusal(await put(patch));
  const turn = async (patchOf: (now: Shot) => ShotPatch): Promise<void> => setRefusal(await putAs(patchOf));
  const count = (field: 'heroes' | 'selects') => async (value: string) =>
    /^\d{1,2}$/.test(value.trim()) ? put({ [field]: Number(value) }) : jobPageLabels.countRange;
  return (
    <DraftPlace value={`${job.code} ${shot.id}`}>
      <div className="shot-form">
        <TextField
          label={jobPageLabels.shotName}
          value={shot.name}
          charactersMax={120}
          save={(name) => put({ name })}
        />
        <TextField
          label={jobPageLabels.description}
          value={shot.description}
          lines={3}
          charactersMax={2000}
          save={(description) => put({ description })}
        />
        <LayoutPicture job={job} shot={shot} width={360} />
        <LayoutUpload job={job} shot={shot} />
        <div className="entry">
          <label htmlFor={`${id}-camera`}>{jobPageLabels.camera}</label>
          <select
            id={`${id}-camera`}
            value={shot.camera ?? ''}
            onChange={(event) => set({ camera: event.target.value === '' ? null : event.target.value })}
          >
            <option value="">{jobPageLabels.everyCamera}</option>
            {cameras.map(({ name, ended }) => (
              <option key={name} value={name}>
                {ended ? jobPageLabels.cameraEnded(name) : name}
              </option>
            ))}
            {shot.camera === null || cameras.some(({ name }) => name === shot.camera) ? null : (
              <option value={shot.camera}>{jobPageLabels.cameraUnknown(shot.camera)}</option>
            )}
          </select>
        </div>
        <LookChoice
          none={jobPageLabels.jobsLook}
          help={jobPageLabels.ownLookHelp}
          named={shot}
          looks={looks}
          put={put}
        />
        <div className="days">
          <TextField
            label={jobPageLabels.heroes}
            type="number"
            value={String(shot.heroes)}
            save={count('heroes')}
          />
          <TextField
            label={jobPageLabels.selects}
            type="number"
            value={String(shot.selects)}
            save={count('selects')}
          />
        </div>
        <label className="tick">
          <input
            type="checkbox"
            checked={shot.agreement}
            onChange={(event) => set({ agreement: event.target.checked })}
          />
          {jobPageLabels.agreement}
        </label>
        <Questions
          label={jobPageLabels.requires}
          chosen={shot.requires}
          turn={(question) => turn((now) => ({ requires: turned(now.requires, question) }))}
        />
        <Questions
          label={jobPageLabels.mutes}
          chosen={shot.mutes}
          turn={(question) => turn((now) => ({ mutes: turned(now.mutes, question) }))}
        />
        <details>
          <summary>{jobPageLabels.ownTolerances}</summary>
          <ToleranceRows
            tolerances={shot.tolerances}
            otherwise={job.tolerances}
            isScaled={shot.scale !== null}
            save={(name, limits) =>
              putAs((now) => ({ tolerances: withLimits(now.tolerances, name, limits) }))
            }
          />
        </details>
        <p className="acts">
          <button
            type="button"
            onClick={async () =>
              setRefusal(await save(({ version }) => removeShot(job.code, shot.id, version)))
            }
          >
            {jobPageLabels.takeAway}
          </button>
          <small>
            {stop === undefined || stop.frames === 0
              ? jobPageLabels.takeAwayEmpty
              : jobPageLabels.takeAwayKeeps(framesPhrase(stop.frames))}
          </small>
        </p>
        <p role="status" className="refusal">
          {refusal}
        </p>
      </div>
    </DraftPlace>
  );
}

interface QuestionsProps {
  readonly label: string;
  readonly chosen: Shot['requires'];
  readonly turn: (question: Question) => void;
}

function Questions({ label, chosen, turn }: QuestionsProps): ReactNode {
  return (
    <fieldset className="entry">
      <legend>{label}</legend>
      <div className="picks">
        {questions.map((question) => (
          <label key={question}>
            <input type="checkbox" checked={chosen.includes(question)} onChange={() => turn(question)} />
            {questionNames[question]}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

function turned(chosen: readonly Question[], question: Question): Question[] {
  return questions.filter((each) => (each === question) !== chosen.includes(each));
}
