import type { ReactNode } from "react";
import { Scroll } from "../../charts/scroll.tsx";
import type { MessageId } from "../../text/catalogue.ts";
import { useSay } from "../../text/text.tsx";
import type { ReadLines } from "../../transfer/read-each.ts";

const shownRows = 6;

interface PreviewTableProps<Row> {
  readonly rows: ReadLines<Row>["rows"];
  /** Headings of the cells; before them stands the line. */
  readonly heads: readonly MessageId[];
  /** The first cell names the row. */
  readonly cellsOf: (row: Row) => readonly [ReactNode, ...ReactNode[]];
}

/** The first rows of a file as they were understood, and how many more there are. */
export function PreviewTable<Row>({ rows, heads, cellsOf }: PreviewTableProps<Row>) {
  const say = useSay();
  return (
    <>
      <Scroll className="transfer-scroll" label={say("transfer.firstRows")}>
        <table className="transfer-table">
          <caption className="only-for-readers">{say("transfer.firstRows")}</caption>
          <thead>
            <tr>
              <th scope="col">{say("transfer.lineHead")}</th>
              {heads.map((head) => (
                <th key={head} scope="col">
                  {say(head)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.slice(0, shownRows).map(({ line, row }) => {
              const [name, ...cells] = cellsOf(row);
              return (
                <tr key={line}>
                  <td>{line}</td>
                  <th scope="row">{name}</th>
                  {cells.map((cell, at) => (
                    <td key={heads[at + 1]}>{cell}</td>
                  ))}
                </tr>
              );
            })}
          </tbody>
        </table>
      </Scroll>
      {rows.length > shownRows ? (
        <p>{say("transfer.moreRows", { count: rows.length - shownRows })}</p>
      ) : null}
    </>
  );
}
