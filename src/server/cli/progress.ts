import { Presets, SingleBar } from "cli-progress";
import type { Terminal } from "./terminal.ts";

/** How far a long piece of work has come. */
export type Progress = {
  readonly show: (done: number, total: number) => void;
  /** a line that must not be drawn over */
  readonly note: (line: string) => void;
  readonly end: () => void;
};

/** Plain lines come no more often than this. */
const LINE_EVERY_MS = 2_000;

/** A bar where there is a screen, else a line now and then; nothing where there is nothing to do. */
export function showProgress(terminal: Terminal, what: string): Progress {
  const { show, ...rest } = terminal.screen === null ? lines(terminal, what) : bar(terminal, terminal.screen, what);
  return {
    ...rest,
    show: (done, total) => {
      if (total > 0) show(done, total);
    },
  };
}

function bar(terminal: Terminal, stream: NodeJS.WriteStream, what: string): Progress {
  const drawn = new SingleBar(
    { stream, format: `${what} {bar} {value} of {total}`, hideCursor: true, clearOnComplete: true, gracefulExit: false },
    Presets.shades_classic,
  );
  let isDrawn = false;
  const end = () => {
    if (isDrawn) drawn.stop();
    isDrawn = false;
  };
  return {
    show: (done, total) => {
      if (!isDrawn) drawn.start(total, done);
      isDrawn = true;
      drawn.setTotal(total);
      drawn.update(done);
    },
    note: (line) => {
      end();
      terminal.tell(`${line}\n`);
    },
    end,
  };
}

function lines(terminal: Terminal, what: string): Progress {
  let last = 0;
  let said = "";
  return {
    show: (done, total) => {
      const line = `${what}: ${done} of ${total}\n`;
      if (line === said || (Date.now() - last < LINE_EVERY_MS && done < total)) return;
      last = Date.now();
      said = line;
      terminal.tell(line);
    },
    note: (line) => terminal.tell(`${line}\n`),
    end: () => {},
  };
}
