import type { CardCheck, CardDesk, NewCardOutcome, PutBackAnswer, Verification } from '../contract/index.ts';

/** What the web door needs of the station about memory cards. Only the operator on its own computer comes this far. */
export interface CardCalls {
  cards(): Promise<CardDesk>;
  /** Begins a check. Rejects `card-not-allowed`, `no-card`, `card-busy`. */
  checkCard(folder: string): Promise<CardCheck>;
  /** Takes over what the command found of a card: into the journal, and onto the page where no other card is being read. */
  tellCard(outcome: NewCardOutcome): Promise<CardCheck>;
  /** Ends the check or the taking in that goes on; null where there never was one. */
  stopCard(): Promise<CardCheck | null>;
  /** Takes in what the last check found missing. Rejects `no-card-check`, `card-busy`, `no-camera`, `no-card`. */
  takeInCard(camera: string): Promise<CardCheck>;
}

/** What it needs about reading originals and copies again. */
export interface VerificationCalls {
  verification(): Promise<Verification>;
  /** Reads all now at full pace, or lets it rest. */
  setVerification(state: 'running' | 'stopped'): Promise<Verification>;
  /** Puts these originals back from a second place, or with null all that are known to be bad. Rejects `no-original`. */
  putOriginalsBack(originals: readonly string[] | null): Promise<PutBackAnswer>;
}
