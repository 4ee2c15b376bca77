/** What crosses to a worker. `id` is unique within its pool. */
export interface WorkerRequest<Task> {
  readonly id: number;
  readonly task: Task;
}

/** What comes back. `retire` asks for a fresh worker: this one's decoder holds memory that it cannot give back. */
export type WorkerReply<Answer> = { readonly id: number; readonly retire: boolean } & (
  | { readonly answer: Answer }
  | { readonly error: WireError }
);

/** An error as plain data: classes do not survive the border, codes do. */
export interface WireError {
  readonly code: string;
  readonly message: string;
  readonly stack: string;
  readonly retryable: boolean;
  readonly cure: string | null;
  readonly details: Readonly<Record<string, string | number | boolean>>;
}
