import { type ReactNode, useEffect, useRef, useState } from "react";
import { LinkState } from "../live/frame.tsx";
import { Button } from "../parts/button.tsx";
import { Choices } from "../parts/field.tsx";
import { Help } from "../parts/help/help.tsx";
import { focusPage } from "../parts/keep-focus.ts";
import { Notice } from "../parts/notice.tsx";
import { useSay } from "../text/text.tsx";
import { papers } from "./paper.ts";
import { PaperContext } from "./sheet.tsx";
import { usePaper } from "./use-paper.ts";
import "./print.css";

interface PrintPageProps {
  title: string;
  /** A link back to the screen this belongs to. */
  back: ReactNode;
  /** The proposed name of a PDF file. */
  fileName: string;
  lead?: ReactNode;
  /** Choices about what is printed. */
  options?: ReactNode;
  /** Remarks to read before printing; none of them is printed. */
  notes?: ReactNode;
  /** The sheets. */
  children: ReactNode;
}

/** A preview of sheets in real size under a bar of choices that is not printed. */
export function PrintPage(props: PrintPageProps) {
  const { title, back, fileName, lead, options, notes, children } = props;
  const say = useSay();
  const { paper, choose } = usePaper();
  useEffect(() => {
    document.title = fileName;
  }, [fileName]);
  const page = useRef<HTMLDivElement>(null);
  const isThere = paper !== undefined;
  useEffect(() => {
    if (isThere && page.current !== null) focusPage(page.current);
  }, [isThere]);
  if (paper === undefined) return <p role="status">{say("wait")}</p>;
  return (
    <div className="print" ref={page}>
      <header className="print-bar">
        <div className="print-head">
          <div>
            <div className="print-back">
              {back} <Help />
            </div>
            <h1>{title}</h1>
            {lead === undefined ? null : <p className="print-lead">{lead}</p>}
          </div>
          <PrintButtons fileName={fileName} paper={paper} />
        </div>
        <div className="print-options">
          <Choices
            label={say("settings.paper")}
            inRow
            value={paper}
            choices={papers.map((value) => ({ value, label: value }))}
            onChange={choose}
          />
          {options}
        </div>
        {notes}
        <LinkState />
      </header>
      <main id="page" className="print-sheets">
        <PaperContext value={paper}>{children}</PaperContext>
      </main>
    </div>
  );
}

type Saved =
  | { readonly kind: "saved"; readonly file: string }
  | { readonly kind: "failed"; readonly message: string };

/** Print, and save as PDF: by the desktop app's own dialog, in a browser by its print window. */
function PrintButtons({ fileName, paper }: { fileName: string; paper: (typeof papers)[number] }) {
  const say = useSay();
  const [saved, setSaved] = useState<Saved | null>(null);
  const [isSaving, setIsSaving] = useState(false);
  const bridge = window.pebblechime;

  const save = async () => {
    if (bridge === undefined) return window.print();
    setIsSaving(true);
    setSaved(null);
    try {
      const outcome = await bridge.savePdf({ name: fileName.slice(0, 120), paper });
      setSaved(outcome.kind === "cancelled" ? null : outcome);
    } catch {
      setSaved({ kind: "failed", message: say("print.notSaved") });
    } finally {
      setIsSaving(false);
    }
  };

  return (
    <div className="print-act">
      <div className="print-buttons">
        <Button look="main" onPress={() => window.print()}>
          {say("print.print")}
        </Button>
        <Button isDisabled={isSaving} onPress={() => void save()}>
          {say("print.savePdf")}
        </Button>
      </div>
      <p className="print-help">
        {say(bridge === undefined ? "print.inBrowser" : "print.fullSize")}
      </p>
      <div role="status">
        {saved?.kind === "saved" ? say("print.saved", { file: saved.file }) : null}
      </div>
      {saved?.kind === "failed" ? <Notice kind="caution">{saved.message}</Notice> : null}
    </div>
  );
}
