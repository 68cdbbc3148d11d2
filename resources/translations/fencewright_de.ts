<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de" sourcelanguage="en">
<context>
    <name>BoundaryLeg</name>
    <message>
        <source>%1 and %2</source>
        <translation>%1 und %2</translation>
    </message>
    <message>
        <source>%1 and %2 others</source>
        <translation>%1 und %2 weitere</translation>
    </message>
</context>
<context>
    <name>CircleTool</name>
    <message>
        <source>%1: click a place on the rim, or type the radius. %2</source>
        <translation>%1: Klicken Sie auf eine Stelle am Rand, oder tippen Sie den Radius. %2</translation>
    </message>
    <message>
        <source>%1: click the centre of the circle, or type its coordinates. %2</source>
        <translation>%1: Klicken Sie auf die Mitte des Kreises, oder tippen Sie ihre Koordinaten. %2</translation>
    </message>
    <message>
        <source>Radius, such as 150 ft</source>
        <translation>Radius, etwa 150 ft</translation>
    </message>
    <message>
        <source>Coordinates of the centre</source>
        <translation>Koordinaten der Mitte</translation>
    </message>
</context>
<context>
    <name>CornerCells</name>
    <message>
        <source>Ring</source>
        <translation>Ring</translation>
    </message>
    <message>
        <source>Corner</source>
        <translation>Ecke</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>To the next</source>
        <translation>Zur nächsten</translation>
    </message>
    <message>
        <source>Bearing</source>
        <translation>Richtung</translation>
    </message>
    <message>
        <source>Line</source>
        <translation>Linie</translation>
    </message>
    <message>
        <source>Outline</source>
        <translation>Umriss</translation>
    </message>
    <message>
        <source>Hole %1</source>
        <translation>Loch %1</translation>
    </message>
</context>
<context>
    <name>CorridorTool</name>
    <message>
        <source>%1 to each side</source>
        <translation>%1 nach jeder Seite</translation>
    </message>
    <message>
        <source>%1: click where the corridor&apos;s line begins, or type its place. %2</source>
        <translation>%1: Klicken Sie, wo die Linie des Korridors beginnt, oder tippen Sie den Ort. %2</translation>
    </message>
    <message>
        <source>%1: click the next place of the line, or type distance and bearing. Enter ends the line.</source>
        <translation>%1: Klicken Sie auf den nächsten Ort der Linie, oder tippen Sie Entfernung und Richtung. Eingabe beendet die Linie.</translation>
    </message>
    <message>
        <source>%1 left · %2 right</source>
        <translation>%1 links · %2 rechts</translation>
    </message>
    <message>
        <source>15 m to each side · 10 m left 25 m right · 10 25</source>
        <translation>15 m nach jeder Seite · 10 m links 25 m rechts · 10 25</translation>
    </message>
    <message>
        <source>%1: click on the right of the line for the width there. Enter: none.</source>
        <translation>%1: Klicken Sie rechts der Linie für die Breite dort. Eingabe: keine.</translation>
    </message>
    <message>
        <source>%1: click on the left of the line for the width there. Enter: none.</source>
        <translation>%1: Klicken Sie links der Linie für die Breite dort. Eingabe: keine.</translation>
    </message>
    <message>
        <source>%1: click beside the line; with Shift, for that side alone. %2</source>
        <translation>%1: Klicken Sie neben die Linie; mit Umschalt nur für diese Seite. %2</translation>
    </message>
</context>
<context>
    <name>CutTool</name>
    <message>
        <source>all fences that the line crosses</source>
        <translation>alle Zäune, die die Linie kreuzt</translation>
    </message>
    <message>
        <source>%1 fences</source>
        <translation>%1 Zäune</translation>
    </message>
    <message>
        <source>Cut %1: click where the line begins, outside, or type its place.</source>
        <translation>Schnitt durch %1: Klicken Sie, wo die Linie beginnt, außerhalb, oder geben Sie den Ort ein.</translation>
    </message>
    <message>
        <source>Cut %1: click the next place, or type distance and bearing. Esc drops it.</source>
        <translation>Schnitt durch %1: Klicken Sie auf den nächsten Ort, oder geben Sie Entfernung und Richtung ein. Esc verwirft.</translation>
    </message>
    <message>
        <source>Cut %1: click the next place, or type distance and bearing. Enter cuts.</source>
        <translation>Schnitt durch %1: Klicken Sie auf den nächsten Ort, oder tippen Sie Entfernung und Richtung. Eingabe schneidet.</translation>
    </message>
</context>
<context>
    <name>DialogButtons</name>
    <message>
        <source>Cancel</source>
        <translation>Abbrechen</translation>
    </message>
</context>
<context>
    <name>Drag</name>
    <message>
        <source>Move edge of %1</source>
        <translation>Kante von %1 verschieben</translation>
    </message>
    <message>
        <source>Change radius of %1</source>
        <translation>Radius von %1 ändern</translation>
    </message>
    <message>
        <source>Move corner of %1</source>
        <translation>Ecke von %1 verschieben</translation>
    </message>
    <message>
        <source>Add corner to %1</source>
        <translation>Ecke zu %1 hinzufügen</translation>
    </message>
    <message>
        <source>How far: 12 m, 12 m inward or -12 m</source>
        <translation>Wie weit: 12 m, 12 m einwärts oder -12 m</translation>
    </message>
    <message>
        <source>Radius: 150 m</source>
        <translation>Radius: 150 m</translation>
    </message>
    <message>
        <source>From where it was: 120 m 45 · N 45°30&apos; E 120 m · or coordinates</source>
        <translation>Von dort, wo es war: 120 m 45 · N 45°30&apos; E 120 m · oder Koordinaten</translation>
    </message>
</context>
<context>
    <name>FreehandTool</name>
    <message>
        <source>%1: draw around the area; letting go closes it. Esc drops it.</source>
        <translation>%1: Umfahren Sie die Fläche; Loslassen schließt sie. Esc verwirft sie.</translation>
    </message>
    <message>
        <source>%1: hold the button down and draw around the area. %2</source>
        <translation>%1: Halten Sie die Taste gedrückt und umfahren Sie die Fläche. %2</translation>
    </message>
</context>
<context>
    <name>HoleTool</name>
    <message>
        <source>Make a hole in %1</source>
        <translation>Loch in %1 schneiden</translation>
    </message>
    <message>
        <source>Hole: click its first corner inside a drawn polygon.</source>
        <translation>Loch: Klicken Sie auf seine erste Ecke in einem gezeichneten Polygon.</translation>
    </message>
    <message>
        <source>Hole: click the next corner, or type distance and bearing. Esc drops it.</source>
        <translation>Loch: Klicken Sie auf die nächste Ecke, oder tippen Sie Entfernung und Richtung. Esc verwirft es.</translation>
    </message>
    <message>
        <source>Hole: click the next corner, or type distance and bearing. Enter closes.</source>
        <translation>Loch: Klicken Sie auf die nächste Ecke, oder tippen Sie Entfernung und Richtung. Eingabe schließt es.</translation>
    </message>
</context>
<context>
    <name>HomeTool</name>
    <message>
        <source>Coordinates</source>
        <translation>Koordinaten</translation>
    </message>
    <message>
        <source>Click where the aircraft starts and returns, or type the coordinates.</source>
        <translation>Klicken Sie, wo das Luftfahrzeug startet und zurückkehrt, oder tippen Sie die Koordinaten.</translation>
    </message>
    <message>
        <source>Click where else it may land, or type the coordinates.</source>
        <translation>Klicken Sie, wo es sonst landen darf, oder tippen Sie die Koordinaten.</translation>
    </message>
    <message>
        <source>%1: an alternate instead.</source>
        <translation>%1: stattdessen ein Ausweichort.</translation>
    </message>
    <message>
        <source>%1: a home instead.</source>
        <translation>%1: stattdessen ein Rückkehrort.</translation>
    </message>
</context>
<context>
    <name>Leg</name>
    <message>
        <source>right</source>
        <translation>rechts</translation>
    </message>
    <message>
        <source>left</source>
        <translation>links</translation>
    </message>
    <message>
        <source>straight on</source>
        <translation>geradeaus</translation>
    </message>
    <message>
        <source>right %1</source>
        <translation>rechts %1</translation>
    </message>
    <message>
        <source>left %1</source>
        <translation>links %1</translation>
    </message>
    <message>
        <source>radius %1</source>
        <translation>Radius %1</translation>
    </message>
</context>
<context>
    <name>LineEntry</name>
    <message>
        <source>direction held</source>
        <translation>Richtung gehalten</translation>
    </message>
    <message>
        <source>%1, %2 around</source>
        <translation>%1, %2 Umfang</translation>
    </message>
    <message>
        <source>%1 in all</source>
        <translation>%1 insgesamt</translation>
    </message>
    <message>
        <source>Coordinates of the first corner, in any notation</source>
        <translation>Koordinaten der ersten Ecke, in jeder Schreibweise</translation>
    </message>
    <message>
        <source>120 m 45 · &lt;45 · 60 m 90 right · N 45°30&apos; E 120 m · or coordinates</source>
        <translation>120 m 45 · &lt;45 · 60 m 90 right · N 45°30&apos; E 120 m · oder Koordinaten</translation>
    </message>
    <message>
        <source>120 m 45 · &lt;45 · N 45°30&apos; E 120 m · or coordinates</source>
        <translation>120 m 45 · &lt;45 · N 45°30&apos; E 120 m · oder Koordinaten</translation>
    </message>
    <message>
        <source>%1 along %2</source>
        <translation>%1 entlang %2</translation>
    </message>
    <message>
        <source>one corner between</source>
        <translation>eine Ecke dazwischen</translation>
    </message>
    <message>
        <source>%1 corners between</source>
        <translation>%1 Ecken dazwischen</translation>
    </message>
    <message>
        <source>How far along the boundary, such as 120 m, or a place on it</source>
        <translation>Wie weit entlang der Grenze, etwa 120 m, oder ein Ort darauf</translation>
    </message>
    <message>
        <source>Along %1: click where it ends, or type how far.</source>
        <translation>Entlang %1: klicken Sie, wo es endet, oder tippen Sie, wie weit.</translation>
    </message>
    <message>
        <source>%1: the other way round, then straight.</source>
        <translation>%1: andersherum, dann gerade.</translation>
    </message>
    <message>
        <source>%1 follows %2, which does not run straight here.</source>
        <translation>%1 folgt %2; gerade verläuft das hier nicht.</translation>
    </message>
    <message>
        <source>%1 follows %2.</source>
        <translation>%1 folgt %2.</translation>
    </message>
</context>
<context>
    <name>LoopTool</name>
    <message>
        <source>Nothing lies wholly in the loop.</source>
        <translation>Nichts liegt ganz in der Schlinge.</translation>
    </message>
    <message>
        <source>Draw it all around what is to be chosen.</source>
        <translation>Ziehen Sie sie ganz um das, was ausgewählt werden soll.</translation>
    </message>
    <message>
        <source>A click alone draws no loop.</source>
        <translation>Ein Klick allein zieht keine Schlinge.</translation>
    </message>
    <message>
        <source>Hold the button down and draw around what is to be chosen.</source>
        <translation>Halten Sie die Taste gedrückt und umfahren Sie, was ausgewählt werden soll.</translation>
    </message>
    <message>
        <source>Letting go chooses what lies wholly in the loop; with Shift it is added. Esc drops it.</source>
        <translation>Loslassen wählt, was ganz in der Schlinge liegt; mit Umschalt kommt es hinzu. Esc verwirft sie.</translation>
    </message>
</context>
<context>
    <name>MapCommands</name>
    <message>
        <source>Take back the last corner</source>
        <translation>Letzten Eckpunkt zurücknehmen</translation>
    </message>
    <message>
        <source>Keep-in or keep-out, home or alternate</source>
        <translation>Einsatz- oder Sperrfläche, Rückkehr- oder Ausweichort</translation>
    </message>
    <message>
        <source>Follow the boundary; the other way; straight</source>
        <translation>Der Grenze folgen; andersherum; gerade</translation>
    </message>
    <message>
        <source>Go left on the map</source>
        <translation>Auf der Karte nach links gehen</translation>
    </message>
    <message>
        <source>Go right on the map</source>
        <translation>Auf der Karte nach rechts gehen</translation>
    </message>
    <message>
        <source>Go up on the map</source>
        <translation>Auf der Karte nach oben gehen</translation>
    </message>
    <message>
        <source>Go down on the map</source>
        <translation>Auf der Karte nach unten gehen</translation>
    </message>
    <message>
        <source>Nudge left by 1 m or 1 ft</source>
        <translation>Um 1 m oder 1 ft nach links rücken</translation>
    </message>
    <message>
        <source>Nudge right by 1 m or 1 ft</source>
        <translation>Um 1 m oder 1 ft nach rechts rücken</translation>
    </message>
    <message>
        <source>Nudge up by 1 m or 1 ft</source>
        <translation>Um 1 m oder 1 ft nach oben rücken</translation>
    </message>
    <message>
        <source>Nudge down by 1 m or 1 ft</source>
        <translation>Um 1 m oder 1 ft nach unten rücken</translation>
    </message>
    <message>
        <source>Nudge left by 10 m or 10 ft</source>
        <translation>Um 10 m oder 10 ft nach links rücken</translation>
    </message>
    <message>
        <source>Nudge right by 10 m or 10 ft</source>
        <translation>Um 10 m oder 10 ft nach rechts rücken</translation>
    </message>
    <message>
        <source>Nudge up by 10 m or 10 ft</source>
        <translation>Um 10 m oder 10 ft nach oben rücken</translation>
    </message>
    <message>
        <source>Nudge down by 10 m or 10 ft</source>
        <translation>Um 10 m oder 10 ft nach unten rücken</translation>
    </message>
    <message>
        <source>On the map</source>
        <translation>Auf der Karte</translation>
    </message>
</context>
<context>
    <name>MeasureTool</name>
    <message>
        <source>%1 around · %2</source>
        <translation>%1 Umfang · %2</translation>
    </message>
    <message>
        <source>%1 in all</source>
        <translation>%1 insgesamt</translation>
    </message>
    <message>
        <source>Click where to measure from.</source>
        <translation>Klicken Sie, von wo gemessen wird.</translation>
    </message>
    <message>
        <source>Click the next place, or type a distance and a bearing. Enter ends the line.</source>
        <translation>Klicken Sie auf den nächsten Ort, oder tippen Sie Entfernung und Richtung. Eingabe beendet die Linie.</translation>
    </message>
    <message>
        <source>Click the next place; the first one closes a ring and gives its area. Enter ends the line.</source>
        <translation>Klicken Sie auf den nächsten Ort; der erste schließt einen Ring und ergibt dessen Fläche. Eingabe beendet die Linie.</translation>
    </message>
    <message>
        <source>Coordinates of the first place</source>
        <translation>Koordinaten des ersten Orts</translation>
    </message>
    <message>
        <source>Click where to measure from. “Copy” takes along what was measured.</source>
        <translation>Klicken Sie, von wo aus gemessen wird. „Kopieren“ nimmt mit, was gemessen wurde.</translation>
    </message>
</context>
<context>
    <name>MovedEdge</name>
    <message>
        <source>%1 outward</source>
        <translation>%1 auswärts</translation>
    </message>
    <message>
        <source>%1 inward</source>
        <translation>%1 einwärts</translation>
    </message>
    <message>
        <source>%1 to the right</source>
        <translation>%1 nach rechts</translation>
    </message>
    <message>
        <source>%1 to the left</source>
        <translation>%1 nach links</translation>
    </message>
    <message>
        <source>outward</source>
        <translation>auswärts</translation>
    </message>
    <message>
        <source>inward</source>
        <translation>einwärts</translation>
    </message>
    <message>
        <source>right</source>
        <translation>rechts</translation>
    </message>
    <message>
        <source>left</source>
        <translation>links</translation>
    </message>
</context>
<context>
    <name>NewThing</name>
    <message>
        <source>Keep-in</source>
        <translation>Einsatzfläche</translation>
    </message>
    <message>
        <source>Keep-out</source>
        <translation>Sperrfläche</translation>
    </message>
    <message>
        <source>Home</source>
        <translation>Rückkehrort</translation>
    </message>
    <message>
        <source>Alternate</source>
        <translation>Ausweichort</translation>
    </message>
    <message>
        <source>Site</source>
        <translation>Schutzobjekt</translation>
    </message>
    <message>
        <source>%1 makes it a keep-out.</source>
        <translation>%1 macht eine Sperrfläche daraus.</translation>
    </message>
    <message>
        <source>%1 makes it a keep-in.</source>
        <translation>%1 macht eine Einsatzfläche daraus.</translation>
    </message>
</context>
<context>
    <name>ParcelTool</name>
    <message>
        <source>Parcel without number</source>
        <translation>Flurstück ohne Nummer</translation>
    </message>
    <message>
        <source>Parcel %1</source>
        <translation>Flurstück %1</translation>
    </message>
    <message>
        <source>%1 parcels · %2</source>
        <translation>%1 Flurstücke · %2</translation>
    </message>
    <message>
        <source>Click the parcels that belong together.</source>
        <translation>Klicken Sie auf die Flurstücke, die zusammengehören.</translation>
    </message>
    <message>
        <source>Click parcels in or out. Enter makes a keep-in, Shift+Enter a keep-out.</source>
        <translation>Nehmen Sie Flurstücke durch Klicken auf oder heraus. Eingabe macht eine Einsatzfläche, Umschalt+Eingabe eine Sperrfläche.</translation>
    </message>
    <message>
        <source>Click parcels in or out. Enter makes a keep-out, Shift+Enter a keep-in.</source>
        <translation>Nehmen Sie Flurstücke durch Klicken auf oder heraus. Eingabe macht eine Sperrfläche, Umschalt+Eingabe eine Einsatzfläche.</translation>
    </message>
</context>
<context>
    <name>PolygonTool</name>
    <message>
        <source>%1: click the first corner, or type its place; = opens the entry for letters.</source>
        <translation>%1: erste Ecke anklicken oder ihren Ort eintippen; = öffnet die Eingabe für Buchstaben.</translation>
    </message>
    <message>
        <source>%1: click the next corner, or type it (= first where it begins with a letter). Esc drops it.</source>
        <translation>%1: nächste Ecke anklicken oder eintippen (vor einem Buchstaben zuerst =). Esc verwirft sie.</translation>
    </message>
    <message>
        <source>%1: click the next corner, or type it (= first where it begins with a letter). Enter closes.</source>
        <translation>%1: nächste Ecke anklicken oder eintippen (vor einem Buchstaben zuerst =). Eingabe schließt.</translation>
    </message>
</context>
<context>
    <name>RectangleTool</name>
    <message>
        <source>%1: click how far the rectangle reaches, or type its depth. %2</source>
        <translation>%1: Klicken Sie, wie weit das Rechteck reicht, oder tippen Sie seine Tiefe. %2</translation>
    </message>
    <message>
        <source>%1: click one end of the rectangle&apos;s first side, or type its place. %2</source>
        <translation>%1: Klicken Sie auf ein Ende der ersten Seite des Rechtecks, oder tippen Sie den Ort. %2</translation>
    </message>
    <message>
        <source>Depth, such as 60 m</source>
        <translation>Tiefe, etwa 60 m</translation>
    </message>
    <message>
        <source>%1 long, %2 deep</source>
        <translation>%1 lang, %2 tief</translation>
    </message>
    <message>
        <source>%1: click the other end of the side, or type length and bearing, or both sides: 120 x 60 45.</source>
        <translation>%1: das andere Ende der Seite anklicken, oder Länge und Richtung eintippen, oder beide Seiten: 120 x 60 45.</translation>
    </message>
</context>
<context>
    <name>RimCircleTool</name>
    <message>
        <source>%1: click the first of three places on the circle&apos;s rim, or type it. %2</source>
        <translation>%1: Klicken Sie auf den ersten von drei Orten am Rand des Kreises, oder tippen Sie ihn. %2</translation>
    </message>
    <message>
        <source>%1: click the second place on the rim, or type it.</source>
        <translation>%1: zweiten Ort auf dem Rand anklicken oder eintippen.</translation>
    </message>
    <message>
        <source>%1: click the third place on the rim, or type it.</source>
        <translation>%1: dritten Ort auf dem Rand anklicken oder eintippen.</translation>
    </message>
</context>
<context>
    <name>SelectTool</name>
    <message>
        <source>Move corner of %1</source>
        <translation>Ecke von %1 verschieben</translation>
    </message>
    <message>
        <source>Add corner to %1</source>
        <translation>Ecke zu %1 hinzufügen</translation>
    </message>
    <message>
        <source>Delete corner of %1</source>
        <translation>Ecke von %1 löschen</translation>
    </message>
    <message>
        <source>This keep-out follows its site: drag the site, or change the distance in the form.</source>
        <translation>Diese Sperrfläche folgt ihrem Schutzobjekt: Ziehen Sie das Objekt, oder ändern Sie den Abstand im Formular.</translation>
    </message>
    <message>
        <source>Drag the rim or the centre. Delete removes the fence.</source>
        <translation>Ziehen Sie den Rand oder die Mitte. Entf entfernt den Zaun.</translation>
    </message>
    <message numerus="yes">
        <source>Delete %n things</source>
        <translation>
            <numerusform>%n Ding löschen</numerusform>
            <numerusform>%n Dinge löschen</numerusform>
        </translation>
    </message>
    <message>
        <source>Letting go chooses what lies wholly in it, with what is chosen already. Esc drops it.</source>
        <translation>Loslassen wählt, was ganz darin liegt, zu dem schon Ausgewählten hinzu. Esc verwirft es.</translation>
    </message>
    <message>
        <source>Click chooses, Shift or Ctrl and a click adds. Ctrl and a drag chooses in a box, Ctrl, Shift and a drag in a loop.</source>
        <translation>Klick wählt, Umschalt oder Strg und ein Klick nimmt hinzu. Strg und Ziehen wählt in einem Rahmen, Strg, Umschalt und Ziehen in einer Schlinge.</translation>
    </message>
    <message>
        <source>Move edge of %1</source>
        <translation>Kante von %1 verschieben</translation>
    </message>
    <message>
        <source>Delete corner</source>
        <translation>Ecke löschen</translation>
    </message>
    <message>
        <source>Add corner here</source>
        <translation>Ecke hier hinzufügen</translation>
    </message>
    <message>
        <source>Release to place the edge here, or type how far. Shift keeps to whole steps, Esc puts it back.</source>
        <translation>Loslassen setzt die Kante hierher; oder tippen Sie, wie weit. Umschalt bleibt bei ganzen Schritten, Esc legt sie zurück.</translation>
    </message>
    <message>
        <source>Release to place it here, or type a distance and a bearing. Shift keeps to whole bearings, Ctrl or Alt holds snapping off, Esc puts it back.</source>
        <translation>Loslassen setzt es hierher; oder tippen Sie Entfernung und Richtung. Umschalt bleibt bei ganzen Richtungen, Strg oder Alt hält das Einrasten ab, Esc legt es zurück.</translation>
    </message>
    <message>
        <source>Figures typed now put it exactly: a distance and a bearing from where it was.</source>
        <translation>Zahlen, die Sie jetzt tippen, setzen es genau: Entfernung und Richtung von dort, wo es war.</translation>
    </message>
    <message>
        <source>Corner chosen: drag it, type a distance and a bearing, or press Delete.</source>
        <translation>Ecke gewählt: Ziehen Sie sie, tippen Sie Entfernung und Richtung, oder drücken Sie Entf.</translation>
    </message>
    <message>
        <source>Edge chosen: drag it parallel to itself, or type how far. Esc lets go of it.</source>
        <translation>Kante gewählt: Ziehen Sie sie parallel, oder tippen Sie, wie weit. Esc lässt sie los.</translation>
    </message>
    <message>
        <source>Drag a corner, a midpoint to add one, the inside to move it all, or with Alt an edge.</source>
        <translation>Ziehen Sie eine Ecke, eine Kantenmitte für eine neue, das Innere für alles, oder mit Alt eine Kante.</translation>
    </message>
    <message>
        <source>Shift or Ctrl and a click adds or takes away, Ctrl and a drag adds a box. Dragging one of them moves all. Delete removes all that is chosen.</source>
        <translation>Umschalt oder Strg und ein Klick nimmt hinzu oder weg, Strg und Ziehen einen Rahmen. Eines davon zu ziehen, verschiebt alles. Entf löscht alles Gewählte.</translation>
    </message>
    <message>
        <source>How far: 12 m, 12 m inward or -12 m</source>
        <translation>Wie weit: 12 m, 12 m einwärts oder -12 m</translation>
    </message>
    <message>
        <source>From where it is: 120 m 45 · N 45°30&apos; E 120 m · or coordinates</source>
        <translation>Von dort, wo sie ist: 120 m 45 · N 45°30&apos; E 120 m · oder Koordinaten</translation>
    </message>
    <message>
        <source>It is locked: nothing changes it until it is unlocked, in the Edit menu or in its form.</source>
        <translation>Es ist fixiert: Nichts ändert es, bis es gelöst wird, im Menü „Bearbeiten“ oder in seinem Formular.</translation>
    </message>
</context>
<context>
    <name>Selection</name>
    <message numerus="yes">
        <source>%n fences</source>
        <translation>
            <numerusform>%n Zaun</numerusform>
            <numerusform>%n Zäune</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n sites</source>
        <translation>
            <numerusform>%n Schutzobjekt</numerusform>
            <numerusform>%n Schutzobjekte</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n homes</source>
        <translation>
            <numerusform>%n Rückkehrort</numerusform>
            <numerusform>%n Rückkehrorte</numerusform>
        </translation>
    </message>
    <message>
        <source>Locked: nothing changes it</source>
        <translation>Fixiert: Nichts ändert es</translation>
    </message>
    <message>
        <source>Lock %1</source>
        <translation>%1 fixieren</translation>
    </message>
    <message>
        <source>Unlock %1</source>
        <translation>%1 lösen</translation>
    </message>
</context>
<context>
    <name>SetbackTool</name>
    <message>
        <source>Add setback of %1</source>
        <translation>Abstandsfläche von %1 hinzufügen</translation>
    </message>
    <message>
        <source>Click the site to protect, or empty ground to place a new one.</source>
        <translation>Klicken Sie auf das Objekt, das zu schützen ist, oder auf freien Boden für ein neues.</translation>
    </message>
    <message>
        <source>%1: type the setback, such as 1/4 mi, then Enter. Enter alone places the site.</source>
        <translation>%1: Tippen Sie den Abstand, etwa 1/4 mi, dann Eingabe. Eingabe allein setzt das Objekt.</translation>
    </message>
    <message>
        <source>%1: type the setback, such as 1/4 mi, then Enter.</source>
        <translation>%1: Tippen Sie den Abstand, etwa 1/4 mi, dann Eingabe.</translation>
    </message>
    <message>
        <source>Distance, such as 1/4 mi</source>
        <translation>Abstand, etwa 1/4 mi</translation>
    </message>
    <message>
        <source>Coordinates of a new site</source>
        <translation>Koordinaten eines neuen Objekts</translation>
    </message>
</context>
<context>
    <name>Snapper</name>
    <message>
        <source>corner of %1</source>
        <translation>Ecke von %1</translation>
    </message>
    <message>
        <source>edge of %1</source>
        <translation>Kante von %1</translation>
    </message>
    <message>
        <source>centre of %1</source>
        <translation>Mitte von %1</translation>
    </message>
    <message>
        <source>square to the last leg</source>
        <translation>rechtwinklig zur letzten Strecke</translation>
    </message>
    <message>
        <source>in line with the last leg</source>
        <translation>in Verlängerung der letzten Strecke</translation>
    </message>
    <message>
        <source>square to edge of %1</source>
        <translation>rechtwinklig zur Kante von %1</translation>
    </message>
    <message>
        <source>in line with edge of %1</source>
        <translation>in Verlängerung der Kante von %1</translation>
    </message>
    <message>
        <source>crossing in %1</source>
        <translation>Kreuzung in %1</translation>
    </message>
    <message>
        <source>crossing of %1 and %2</source>
        <translation>Kreuzung von %1 und %2</translation>
    </message>
    <message>
        <source>midpoint of %1</source>
        <translation>Kantenmitte von %1</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>square onto edge of %1</source>
        <translation>Lot auf Kante von %1</translation>
    </message>
    <message>
        <source>parallel to edge of %1</source>
        <translation>parallel zur Kante von %1</translation>
    </message>
    <message>
        <source>%1 (outline)</source>
        <translation>%1 (Umriss)</translation>
    </message>
</context>
<context>
    <name>Snaps</name>
    <message>
        <source>&amp;Corners</source>
        <translation>&amp;Ecken</translation>
    </message>
    <message>
        <source>&amp;Sites, homes, centres</source>
        <translation>&amp;Schutzobjekte, Rückkehrorte, Mitten</translation>
    </message>
    <message>
        <source>C&amp;rossings of edges</source>
        <translation>Kr&amp;euzungen von Kanten</translation>
    </message>
    <message>
        <source>&amp;Midpoints of edges</source>
        <translation>Kanten&amp;mitten</translation>
    </message>
    <message>
        <source>&amp;Edges</source>
        <translation>&amp;Kanten</translation>
    </message>
    <message>
        <source>Ri&amp;ght angles</source>
        <translation>&amp;Rechte Winkel</translation>
    </message>
    <message>
        <source>In &amp;line with a leg or an edge</source>
        <translation>In &amp;Verlängerung einer Strecke oder Kante</translation>
    </message>
    <message>
        <source>&amp;Parallels to edges</source>
        <translation>&amp;Parallelen zu Kanten</translation>
    </message>
    <message>
        <source>Re&amp;ference layers too</source>
        <translation>Auch Re&amp;ferenzebenen</translation>
    </message>
</context>
<context>
    <name>Tools</name>
    <message>
        <source>Select and edit</source>
        <translation>Auswählen und bearbeiten</translation>
    </message>
    <message>
        <source>Keep-out polygon</source>
        <translation>Sperrfläche als Polygon</translation>
    </message>
    <message>
        <source>Keep-in polygon</source>
        <translation>Einsatzfläche als Polygon</translation>
    </message>
    <message>
        <source>Rectangle at any angle</source>
        <translation>Rechteck in jedem Winkel</translation>
    </message>
    <message>
        <source>Circle</source>
        <translation>Kreis</translation>
    </message>
    <message>
        <source>Circle through three places</source>
        <translation>Kreis durch drei Orte</translation>
    </message>
    <message>
        <source>Corridor along a line</source>
        <translation>Korridor entlang einer Linie</translation>
    </message>
    <message>
        <source>Drawn by hand</source>
        <translation>Freihand gezeichnet</translation>
    </message>
    <message>
        <source>Hole in a polygon</source>
        <translation>Loch in einem Polygon</translation>
    </message>
    <message>
        <source>Fence of parcels</source>
        <translation>Zaun aus Flurstücken</translation>
    </message>
    <message>
        <source>Setback of a site</source>
        <translation>Abstand zu einem Objekt</translation>
    </message>
    <message>
        <source>Home or alternate</source>
        <translation>Rückkehr- oder Ausweichort</translation>
    </message>
    <message>
        <source>Measure</source>
        <translation>Messen</translation>
    </message>
    <message>
        <source>Choose by a loop</source>
        <translation>Mit einer Schlinge auswählen</translation>
    </message>
    <message>
        <source>Turn and scale</source>
        <translation>Drehen und skalieren</translation>
    </message>
    <message>
        <source>Cut along a line</source>
        <translation>Entlang einer Linie zerschneiden</translation>
    </message>
</context>
<context>
    <name>TurnTool</name>
    <message>
        <source>Click what is to be turned or scaled; Shift or Ctrl and a click adds.</source>
        <translation>Klicken Sie an, was gedreht oder skaliert werden soll; Umschalt oder Strg und ein Klick nimmt hinzu.</translation>
    </message>
    <message>
        <source>Release to turn and scale about this place. It snaps; Ctrl or Alt holds that off.</source>
        <translation>Loslassen: Um diesen Ort wird gedreht und skaliert. Er rastet ein; Strg oder Alt hält das ab.</translation>
    </message>
    <message>
        <source>Farther out turns finer. Shift keeps to 15°, &quot;30 right&quot; is exact, Esc puts it back.</source>
        <translation>Weiter außen dreht feiner. Umschalt bleibt bei 15°, „30 rechts“ ist genau, Esc legt es zurück.</translation>
    </message>
    <message>
        <source>Away from the middle makes it larger. Shift keeps to tenths, &quot;x 1.5&quot; is exact, Esc puts it back.</source>
        <translation>Fort von der Mitte wird es größer. Umschalt bleibt bei Zehnteln, „x 1.5“ ist genau, Esc legt es zurück.</translation>
    </message>
    <message>
        <source>Release to place it here. Shift keeps to whole bearings, Esc puts it back.</source>
        <translation>Loslassen setzt es hierher. Umschalt bleibt bei ganzen Richtungen, Esc legt es zurück.</translation>
    </message>
    <message>
        <source>Drag the ring to turn, a square to scale, the cross to put the middle elsewhere; or type &quot;30 right&quot;, &quot;x 1.5&quot;, &quot;20 m 45&quot;.</source>
        <translation>Ziehen Sie den Ring zum Drehen, ein Quadrat zum Skalieren, das Kreuz für eine andere Mitte; oder tippen Sie „30 rechts“, „x 1.5“, „20 m 45“.</translation>
    </message>
    <message>
        <source>30 right · 15 left · x 1.5 · 150 % · 20 m 45</source>
        <translation>30 rechts · 15 links · x 1.5 · 150 % · 20 m 45</translation>
    </message>
    <message>
        <source>%1° right</source>
        <translation>%1° rechts</translation>
    </message>
    <message>
        <source>%1° left</source>
        <translation>%1° links</translation>
    </message>
    <message>
        <source>× %1</source>
        <translation>× %1</translation>
    </message>
    <message>
        <source>What is chosen follows its site: turn and scale the site, or make a polygon of it.</source>
        <translation>Was gewählt ist, folgt seinem Schutzobjekt: Drehen und skalieren Sie das Objekt, oder machen Sie ein Polygon daraus.</translation>
    </message>
</context>
<context>
    <name>core</name>
    <message>
        <source>Drawing</source>
        <translation>Es wird gezeichnet</translation>
    </message>
    <message>
        <source>The work failed: %1.</source>
        <translation>Die Arbeit ist gescheitert: %1.</translation>
    </message>
    <message>
        <source>Nothing was changed.</source>
        <translation>Nichts wurde geändert.</translation>
    </message>
    <message>
        <source>Computing outlines</source>
        <translation>Umrisse werden berechnet</translation>
    </message>
    <message>
        <source>The server has not been asked since the program started.</source>
        <translation>Der Server wurde seit dem Start des Programms nicht gefragt.</translation>
    </message>
    <message>
        <source>As it was on %1. %2</source>
        <translation>Stand vom %1. %2</translation>
    </message>
    <message>
        <source>A corner is not a number, or lies beyond 89 degrees of latitude or 540 of longitude.</source>
        <translation>Eine Ecke ist keine Zahl, oder liegt jenseits von 89 Grad Breite oder 540 Grad Länge.</translation>
    </message>
    <message>
        <source>longitude %1, latitude %2</source>
        <translation>Länge %1, Breite %2</translation>
    </message>
    <message>
        <source>Correct or delete that corner.</source>
        <translation>Berichtigen oder löschen Sie diese Ecke.</translation>
    </message>
    <message>
        <source>fence without a name</source>
        <translation>Zaun ohne Namen</translation>
    </message>
    <message>
        <source>fence &quot;%1&quot;</source>
        <translation>Zaun „%1“</translation>
    </message>
    <message>
        <source>This could not be checked (%1): %2</source>
        <translation>Das konnte nicht geprüft werden (%1): %2</translation>
    </message>
    <message>
        <source>Looking for faults of rings</source>
        <translation>Fehler von Ringen werden gesucht</translation>
    </message>
    <message>
        <source>Looking at each fence</source>
        <translation>Jeder Zaun wird angesehen</translation>
    </message>
    <message>
        <source>Comparing keep-outs with keep-ins</source>
        <translation>Sperrflächen werden mit Einsatzflächen verglichen</translation>
    </message>
    <message>
        <source>Computing the operating area</source>
        <translation>Das Betriebsgebiet wird berechnet</translation>
    </message>
    <message>
        <source>Look for corners far away from all others.</source>
        <translation>Suchen Sie nach Ecken, die weit von allen anderen liegen.</translation>
    </message>
    <message>
        <source>&quot;%1&quot;</source>
        <translation>„%1“</translation>
    </message>
    <message>
        <source>a keep-in without a name</source>
        <translation>Einsatzfläche ohne Namen</translation>
    </message>
    <message>
        <source>a keep-out without a name</source>
        <translation>Sperrfläche ohne Namen</translation>
    </message>
    <message>
        <source>A keep-in without a name</source>
        <translation>Einsatzfläche ohne Namen</translation>
    </message>
    <message>
        <source>A keep-out without a name</source>
        <translation>Sperrfläche ohne Namen</translation>
    </message>
    <message>
        <source>Home &quot;%1&quot;</source>
        <translation>Rückkehrort „%1“</translation>
    </message>
    <message>
        <source>Alternate &quot;%1&quot;</source>
        <translation>Ausweichort „%1“</translation>
    </message>
    <message>
        <source>the outline</source>
        <translation>der Umriss</translation>
    </message>
    <message>
        <source>hole %1</source>
        <translation>Loch %1</translation>
    </message>
    <message>
        <source>a parcel, %1</source>
        <translation>ein Flurstück, %1</translation>
    </message>
    <message>
        <source>parcel %1, %2</source>
        <translation>Flurstück %1, %2</translation>
    </message>
    <message>
        <source>Repair the outline of %1</source>
        <translation>Umriss von %1 reparieren</translation>
    </message>
    <message>
        <source>Operating area is empty</source>
        <translation>Betriebsgebiet ist leer</translation>
    </message>
    <message>
        <source>The keep-outs leave nothing of the keep-ins, so there is nowhere to fly.</source>
        <translation>Die Sperrflächen lassen nichts von den Einsatzflächen übrig; es gibt nichts, wo geflogen werden darf.</translation>
    </message>
    <message>
        <source>Make a keep-in larger, or check the keep-outs, their dates and their heights.</source>
        <translation>Vergrößern Sie eine Einsatzfläche, oder prüfen Sie die Sperrflächen, ihre Daten und ihre Höhen.</translation>
    </message>
    <message>
        <source>The operating area cannot be computed, and so counts as empty. %1</source>
        <translation>Das Betriebsgebiet kann nicht berechnet werden und gilt deshalb als leer. %1</translation>
    </message>
    <message>
        <source>Nothing is left of the operating area on %1: the active keep-outs cover all active keep-ins.</source>
        <translation>Am %1 bleibt nichts vom Betriebsgebiet: Die Sperrflächen in Kraft bedecken alle Einsatzflächen in Kraft.</translation>
    </message>
    <message>
        <source>Operating area in several pieces</source>
        <translation>Betriebsgebiet in mehreren Stücken</translation>
    </message>
    <message>
        <source>The aircraft cannot pass from one piece to another without leaving the operating area.</source>
        <translation>Das Fluggerät kann nicht von einem Stück zum anderen, ohne das Betriebsgebiet zu verlassen.</translation>
    </message>
    <message>
        <source>Join the pieces, or give each piece its own home and plan it as an operation of its own.</source>
        <translation>Verbinden Sie die Stücke, oder geben Sie jedem einen eigenen Rückkehrort und planen Sie es als eigenen Einsatz.</translation>
    </message>
    <message>
        <source>The operating area on %1 is in %2 pieces; the largest has %3, the smallest, shown, %4.</source>
        <translation>Das Betriebsgebiet am %1 besteht aus %2 Stücken; das größte hat %3, das kleinste, gezeigte, %4.</translation>
    </message>
    <message>
        <source>%1 above ground</source>
        <translation>%1 über Grund</translation>
    </message>
    <message>
        <source>%1 above mean sea level</source>
        <translation>%1 über dem Meer</translation>
    </message>
    <message>
        <source>%1 above the ellipsoid</source>
        <translation>%1 über dem Ellipsoid</translation>
    </message>
    <message>
        <source>Ceiling not above floor</source>
        <translation>Obergrenze nicht über Untergrenze</translation>
    </message>
    <message>
        <source>A fence whose ceiling is not above its floor applies at no height.</source>
        <translation>Ein Zaun, dessen Obergrenze nicht über seiner Untergrenze liegt, gilt in keiner Höhe.</translation>
    </message>
    <message>
        <source>Correct the floor or the ceiling.</source>
        <translation>Berichtigen Sie die Untergrenze oder die Obergrenze.</translation>
    </message>
    <message>
        <source>The ceiling of %1, %2, is not above its floor, %3.</source>
        <translation>Die Obergrenze von %1, %2, liegt nicht über der Untergrenze, %3.</translation>
    </message>
    <message>
        <source>Basis missing</source>
        <translation>Grundlage fehlt</translation>
    </message>
    <message>
        <source>A fence without a stated reason cannot be defended, nor changed with confidence, by the next person.</source>
        <translation>Einen Zaun ohne angegebenen Grund kann die nächste Person weder verteidigen noch mit Zuversicht ändern.</translation>
    </message>
    <message>
        <source>State what it rests on: a permit, a lease, a guideline, an agreement or a judgement.</source>
        <translation>Geben Sie an, worauf er beruht: Genehmigung, Pacht, Leitlinie, Vereinbarung oder Ermessen.</translation>
    </message>
    <message>
        <source>%1 has no basis.</source>
        <translation>%1 hat keine Grundlage.</translation>
    </message>
    <message>
        <source>%1 has a coordinate that is not a number.</source>
        <translation>%1 hat eine Koordinate, die keine Zahl ist.</translation>
    </message>
    <message>
        <source>%1 has a latitude of %2 degrees; latitudes go to 90.</source>
        <translation>%1 hat eine Breite von %2 Grad; Breiten gehen bis 90.</translation>
    </message>
    <message>
        <source>%1 has a latitude of %2 degrees; beyond 89 no outline can be computed.</source>
        <translation>%1 hat eine Breite von %2 Grad; jenseits von 89 kann kein Umriss berechnet werden.</translation>
    </message>
    <message>
        <source>%1 has a longitude of %2 degrees; longitudes go to 180, and across the antimeridian to 540.</source>
        <translation>%1 hat eine Länge von %2 Grad; Längen gehen bis 180, über die Datumsgrenze hinweg bis 540.</translation>
    </message>
    <message>
        <source>Coordinates out of range</source>
        <translation>Koordinaten außerhalb des Bereichs</translation>
    </message>
    <message>
        <source>A coordinate that is no place on the earth, or too near a pole to compute with, makes every figure about the fence wrong.</source>
        <translation>Eine Koordinate, die kein Ort auf der Erde ist oder zu nah am Pol zum Rechnen, macht jede Zahl über den Zaun falsch.</translation>
    </message>
    <message>
        <source>Correct the coordinate: longitude first, then latitude, in degrees.</source>
        <translation>Berichtigen Sie die Koordinate: zuerst Länge, dann Breite, in Grad.</translation>
    </message>
    <message>
        <source>Site &quot;%1&quot;</source>
        <translation>Schutzobjekt „%1“</translation>
    </message>
    <message>
        <source>Long edge</source>
        <translation>Lange Kante</translation>
    </message>
    <message>
        <source>Systems that draw an edge as the shortest path, and not straight in longitude and latitude, put the boundary elsewhere.</source>
        <translation>Systeme, die eine Kante als kürzesten Weg zeichnen und nicht gerade in Länge und Breite, legen die Grenze woandershin.</translation>
    </message>
    <message>
        <source>Add corners on the edge; a delivery can add them by itself.</source>
        <translation>Fügen Sie Ecken auf der Kante hinzu; eine Auslieferung kann das von selbst.</translation>
    </message>
    <message>
        <source>An edge of %1, %2 long, parts from the geodesic by %3.</source>
        <translation>Eine Kante von %1, %2 lang, weicht um %3 von der Geodäte ab.</translation>
    </message>
    <message>
        <source>%1 and %2 are both keep-ins and enclose the same area.</source>
        <translation>%1 und %2 sind beide Einsatzflächen und umschließen dieselbe Fläche.</translation>
    </message>
    <message>
        <source>%1 and %2 are both keep-outs and enclose the same area.</source>
        <translation>%1 und %2 sind beide Sperrflächen und umschließen dieselbe Fläche.</translation>
    </message>
    <message>
        <source>Two fences the same</source>
        <translation>Zwei gleiche Zäune</translation>
    </message>
    <message>
        <source>Whoever changes one and not the other believes a change was made that was not.</source>
        <translation>Wer den einen ändert und den anderen nicht, hält etwas für geändert, das es nicht ist.</translation>
    </message>
    <message>
        <source>Delete one of them, or tell them apart by their dates or heights.</source>
        <translation>Löschen Sie einen davon, oder unterscheiden Sie sie durch Daten oder Höhen.</translation>
    </message>
    <message>
        <source>Two fences of one name</source>
        <translation>Zwei Zäune mit einem Namen</translation>
    </message>
    <message>
        <source>People speak of fences by their names, and a list or a radio call cannot tell these apart.</source>
        <translation>Man spricht von Zäunen bei ihrem Namen; eine Liste oder ein Funkspruch kann diese nicht unterscheiden.</translation>
    </message>
    <message>
        <source>Rename one of them.</source>
        <translation>Benennen Sie einen davon um.</translation>
    </message>
    <message>
        <source>Another fence is also named %1.</source>
        <translation>Noch ein Zaun heißt %1.</translation>
    </message>
    <message>
        <source>Fence is tiny</source>
        <translation>Zaun ist winzig</translation>
    </message>
    <message>
        <source>No aircraft can be kept in or out of a place smaller than itself; it is most likely a slip of the hand.</source>
        <translation>Kein Fluggerät kann in oder außerhalb einer Fläche gehalten werden, die kleiner ist als es selbst; wahrscheinlich ist es ein Versehen.</translation>
    </message>
    <message>
        <source>Check its corners or its radius, or delete it.</source>
        <translation>Prüfen Sie seine Ecken oder seinen Radius, oder löschen Sie ihn.</translation>
    </message>
    <message>
        <source>%1 encloses only %2.</source>
        <translation>%1 umschließt nur %2.</translation>
    </message>
    <message>
        <source>Fence encloses nothing</source>
        <translation>Zaun umschließt nichts</translation>
    </message>
    <message>
        <source>It neither permits nor forbids, whatever its name says.</source>
        <translation>Er erlaubt nichts und verbietet nichts, was auch sein Name sagt.</translation>
    </message>
    <message>
        <source>Give it a size, or delete it.</source>
        <translation>Geben Sie ihm eine Größe, oder löschen Sie ihn.</translation>
    </message>
    <message>
        <source>%1 encloses nothing.</source>
        <translation>%1 umschließt nichts.</translation>
    </message>
    <message>
        <source>Holes lie in one another</source>
        <translation>Löcher liegen ineinander</translation>
    </message>
    <message>
        <source>Programs differ in whether a hole in a hole is inside or outside.</source>
        <translation>Programme unterscheiden sich darin, ob ein Loch in einem Loch innen oder außen ist.</translation>
    </message>
    <message>
        <source>Unite the holes, or delete one; the repair errs to the safe side.</source>
        <translation>Vereinigen Sie die Löcher, oder löschen Sie eines; die Reparatur irrt zur sicheren Seite.</translation>
    </message>
    <message>
        <source>%1 overlaps another hole, or lies in it.</source>
        <translation>%1 überlappt ein anderes Loch, oder liegt darin.</translation>
    </message>
    <message>
        <source>Hole not inside its outline</source>
        <translation>Loch nicht innerhalb seines Umrisses</translation>
    </message>
    <message>
        <source>A hole outside, or across the outline, is read as nothing by some programs and as surface by others.</source>
        <translation>Ein Loch außerhalb oder quer über dem Umriss lesen manche Programme als nichts und andere als Fläche.</translation>
    </message>
    <message>
        <source>Move the hole inside, or delete it; the repair errs to the safe side.</source>
        <translation>Verschieben Sie das Loch nach innen, oder löschen Sie es; die Reparatur irrt zur sicheren Seite.</translation>
    </message>
    <message>
        <source>%1 does not lie inside the outline.</source>
        <translation>%1 liegt nicht innerhalb des Umrisses.</translation>
    </message>
    <message>
        <source>Landing place not wholly inside</source>
        <translation>Landeplatz nicht ganz innerhalb</translation>
    </message>
    <message>
        <source>The aircraft may come down anywhere in its landing radius, also on the wrong side of the boundary.</source>
        <translation>Das Fluggerät kann überall in seinem Landeradius herunterkommen, auch auf der falschen Seite der Grenze.</translation>
    </message>
    <message>
        <source>Move the home inwards, or state a smaller landing radius if the aircraft keeps it.</source>
        <translation>Verschieben Sie den Rückkehrort nach innen, oder geben Sie einen kleineren Landeradius an, falls das Fluggerät ihn einhält.</translation>
    </message>
    <message>
        <source>%1 lies %2 from the boundary of the operating area; its landing radius is %3.</source>
        <translation>%1 liegt %2 von der Grenze des Betriebsgebiets; sein Landeradius ist %3.</translation>
    </message>
    <message>
        <source>Home missing</source>
        <translation>Rückkehrort fehlt</translation>
    </message>
    <message>
        <source>Without a home nobody can say whether the aircraft can come back.</source>
        <translation>Ohne Rückkehrort kann niemand sagen, ob das Fluggerät zurückkommen kann.</translation>
    </message>
    <message>
        <source>Set a home where the aircraft starts and returns.</source>
        <translation>Setzen Sie einen Rückkehrort, wo das Fluggerät startet und zurückkehrt.</translation>
    </message>
    <message>
        <source>The set has no home.</source>
        <translation>Der Satz hat keinen Rückkehrort.</translation>
    </message>
    <message>
        <source>The set has alternates, but no home.</source>
        <translation>Der Satz hat Ausweichorte, aber keinen Rückkehrort.</translation>
    </message>
    <message>
        <source>Home outside the operating area</source>
        <translation>Rückkehrort außerhalb des Betriebsgebiets</translation>
    </message>
    <message>
        <source>An aircraft that starts or lands there is outside from its first metre.</source>
        <translation>Ein Fluggerät, das dort startet oder landet, ist vom ersten Meter an außerhalb.</translation>
    </message>
    <message>
        <source>Move the home into the operating area, or enlarge a keep-in.</source>
        <translation>Verschieben Sie den Rückkehrort in das Betriebsgebiet, oder vergrößern Sie eine Einsatzfläche.</translation>
    </message>
    <message>
        <source>%1 lies outside the operating area on %2.</source>
        <translation>%1 liegt am %2 außerhalb des Betriebsgebiets.</translation>
    </message>
    <message>
        <source>%1 lies outside the operating area on %2, %3 from it.</source>
        <translation>%1 liegt am %2 außerhalb des Betriebsgebiets, %3 davon entfernt.</translation>
    </message>
    <message>
        <source>Keep-out without effect</source>
        <translation>Sperrfläche ohne Wirkung</translation>
    </message>
    <message>
        <source>It touches no keep-in, so it forbids nothing that was permitted; perhaps it lies in the wrong place.</source>
        <translation>Sie berührt keine Einsatzfläche und verbietet nichts, was erlaubt war; vielleicht liegt sie am falschen Ort.</translation>
    </message>
    <message>
        <source>Check its place. If it is right, it may stay: it does no harm.</source>
        <translation>Prüfen Sie ihren Ort. Stimmt er, kann sie bleiben: Sie schadet nicht.</translation>
    </message>
    <message>
        <source>%1 touches no keep-in.</source>
        <translation>%1 berührt keine Einsatzfläche.</translation>
    </message>
    <message>
        <source>Keep-out covers a whole keep-in</source>
        <translation>Sperrfläche bedeckt eine ganze Einsatzfläche</translation>
    </message>
    <message>
        <source>The keep-in permits nothing while the keep-out is active, which is seldom meant.</source>
        <translation>Die Einsatzfläche erlaubt nichts, solange die Sperrfläche in Kraft ist; das ist selten gemeint.</translation>
    </message>
    <message>
        <source>Check which of the two is right, and their dates and heights.</source>
        <translation>Prüfen Sie, welche der beiden stimmt, und ihre Daten und Höhen.</translation>
    </message>
    <message>
        <source>The keep-out %1 covers the whole keep-in %2.</source>
        <translation>Die Sperrfläche %1 bedeckt die ganze Einsatzfläche %2.</translation>
    </message>
    <message>
        <source>Outline cannot be computed</source>
        <translation>Umriss kann nicht berechnet werden</translation>
    </message>
    <message>
        <source>A fence without an outline neither permits nor forbids anything, and is missing from every computation.</source>
        <translation>Ein Zaun ohne Umriss erlaubt nichts und verbietet nichts, und fehlt in jeder Berechnung.</translation>
    </message>
    <message>
        <source>Correct the shape of the fence, or delete it.</source>
        <translation>Berichtigen Sie die Form des Zauns, oder löschen Sie ihn.</translation>
    </message>
    <message>
        <source>The outline of %1 cannot be computed.</source>
        <translation>Der Umriss von %1 kann nicht berechnet werden.</translation>
    </message>
    <message>
        <source>Closing edge assumed</source>
        <translation>Schließende Kante angenommen</translation>
    </message>
    <message>
        <source>The source left the outline open, so its last edge is a guess and may run where nobody meant it.</source>
        <translation>Die Quelle ließ den Umriss offen; seine letzte Kante ist geraten und kann verlaufen, wo es niemand meinte.</translation>
    </message>
    <message>
        <source>Look at the closing edge, and confirm it or add the missing corners.</source>
        <translation>Sehen Sie sich die schließende Kante an; bestätigen Sie sie, oder fügen Sie die fehlenden Ecken hinzu.</translation>
    </message>
    <message>
        <source>%1 was not closed in its source; the closing edge of %2 is assumed.</source>
        <translation>%1 war in der Quelle nicht geschlossen; die schließende Kante von %2 ist angenommen.</translation>
    </message>
    <message>
        <source>Confirm the closing edge of %1</source>
        <translation>Schließende Kante von %1 bestätigen</translation>
    </message>
    <message>
        <source>Repeated corner</source>
        <translation>Wiederholte Ecke</translation>
    </message>
    <message>
        <source>It encloses nothing more, but some systems refuse an outline with the same corner twice in a row.</source>
        <translation>Sie umschließt nicht mehr, aber manche Systeme weisen einen Umriss mit derselben Ecke zweimal hintereinander ab.</translation>
    </message>
    <message>
        <source>Remove the repeated corner.</source>
        <translation>Entfernen Sie die wiederholte Ecke.</translation>
    </message>
    <message>
        <source>%1 has the same corner twice in a row.</source>
        <translation>%1 hat dieselbe Ecke zweimal hintereinander.</translation>
    </message>
    <message>
        <source>Remove repeated corners of %1</source>
        <translation>Wiederholte Ecken von %1 entfernen</translation>
    </message>
    <message>
        <source>Outline crosses itself</source>
        <translation>Umriss kreuzt sich selbst</translation>
    </message>
    <message>
        <source>Programs read a crossed outline in different ways, so that another system may permit what this one forbids.</source>
        <translation>Programme lesen einen gekreuzten Umriss verschieden; ein anderes System kann erlauben, was dieses verbietet.</translation>
    </message>
    <message>
        <source>Move the corners until the edges no longer cross, or take the repair, which errs to the safe side.</source>
        <translation>Verschieben Sie die Ecken, bis sich die Kanten nicht mehr kreuzen, oder nehmen Sie die Reparatur an, die zur sicheren Seite irrt.</translation>
    </message>
    <message>
        <source>%1 crosses or runs along itself here.</source>
        <translation>%1 kreuzt sich hier selbst oder läuft an sich entlang.</translation>
    </message>
    <message>
        <source>%1 has so many edges close together that crossings cannot be ruled out.</source>
        <translation>%1 hat so viele Kanten dicht beieinander, dass Kreuzungen nicht auszuschließen sind.</translation>
    </message>
    <message>
        <source>Outline touches itself</source>
        <translation>Umriss berührt sich selbst</translation>
    </message>
    <message>
        <source>The standard for surfaces forbids it, and programs differ in whether the enclosed place is inside.</source>
        <translation>Die Norm für Flächen verbietet es, und Programme unterscheiden sich darin, ob der umschlossene Ort innen ist.</translation>
    </message>
    <message>
        <source>Move the corner away, or take the repair, which errs to the safe side.</source>
        <translation>Verschieben Sie die Ecke, oder nehmen Sie die Reparatur an, die zur sicheren Seite irrt.</translation>
    </message>
    <message>
        <source>%1 touches itself here.</source>
        <translation>%1 berührt sich hier selbst.</translation>
    </message>
    <message>
        <source>%1 and another ring touch so that they cut the inside into pieces.</source>
        <translation>%1 und ein anderer Ring berühren sich so, dass sie das Innere in Stücke schneiden.</translation>
    </message>
    <message>
        <source>%1: %2 runs out to here and back less than 0.1 m beside itself.</source>
        <translation>%1: %2 läuft hierher und keine 0.1 m daneben zurück.</translation>
    </message>
    <message>
        <source>Remove a spike of %1</source>
        <translation>Eine Spitze von %1 entfernen</translation>
    </message>
    <message>
        <source>Spike</source>
        <translation>Spitze</translation>
    </message>
    <message>
        <source>An edge that runs out and back along itself encloses nothing, but flight systems may refuse it or follow it.</source>
        <translation>Eine Kante, die hinaus und an sich entlang zurückläuft, umschließt nichts, aber Flugsysteme können sie abweisen oder ihr folgen.</translation>
    </message>
    <message>
        <source>Remove the corner at its tip.</source>
        <translation>Entfernen Sie die Ecke an der Spitze.</translation>
    </message>
    <message>
        <source>%1 runs out to here and straight back.</source>
        <translation>%1 läuft hierher und gerade zurück.</translation>
    </message>
    <message>
        <source>Outline of fewer than three corners</source>
        <translation>Umriss mit weniger als drei Ecken</translation>
    </message>
    <message>
        <source>It encloses nothing, so it neither permits nor forbids.</source>
        <translation>Er umschließt nichts; also erlaubt und verbietet er nichts.</translation>
    </message>
    <message>
        <source>Add corners, or delete it.</source>
        <translation>Fügen Sie Ecken hinzu, oder löschen Sie ihn.</translation>
    </message>
    <message>
        <source>%1 has fewer than three different corners.</source>
        <translation>%1 hat weniger als drei verschiedene Ecken.</translation>
    </message>
    <message>
        <source>Remove the empty hole of %1</source>
        <translation>Leeres Loch von %1 entfernen</translation>
    </message>
    <message>
        <source>No keep-in</source>
        <translation>Keine Einsatzfläche</translation>
    </message>
    <message>
        <source>Without a keep-in nothing is permitted, and a system that is given only keep-outs permits all the rest of the world.</source>
        <translation>Ohne Einsatzfläche ist nichts erlaubt, und ein System, das nur Sperrflächen bekommt, erlaubt den ganzen Rest der Welt.</translation>
    </message>
    <message>
        <source>Draw a keep-in around the place where the flight may be, or choose a date at which one is active.</source>
        <translation>Zeichnen Sie eine Einsatzfläche um den Ort, wo geflogen werden darf, oder wählen Sie ein Datum, an dem eine in Kraft ist.</translation>
    </message>
    <message>
        <source>The set has no keep-in.</source>
        <translation>Der Satz hat keine Einsatzfläche.</translation>
    </message>
    <message>
        <source>The only keep-in of the set is not active on %1.</source>
        <translation>Die einzige Einsatzfläche des Satzes ist am %1 nicht in Kraft.</translation>
    </message>
    <message>
        <source>None of the set&apos;s %1 keep-ins is active on %2.</source>
        <translation>Keine der %1 Einsatzflächen des Satzes ist am %2 in Kraft.</translation>
    </message>
    <message>
        <source>Setback without its site</source>
        <translation>Abstand ohne sein Objekt</translation>
    </message>
    <message>
        <source>A setback follows its site; without the site it encloses nothing and protects nothing.</source>
        <translation>Eine Abstandsfläche folgt ihrem Objekt; ohne das Objekt umschließt und schützt sie nichts.</translation>
    </message>
    <message>
        <source>Give the setback another site, draw it anew, or delete it.</source>
        <translation>Geben Sie der Abstandsfläche ein anderes Objekt, zeichnen Sie sie neu, oder löschen Sie sie.</translation>
    </message>
    <message>
        <source>%1 keeps %2 from a site that is no longer in the set.</source>
        <translation>%1 hält %2 Abstand von einem Objekt, das nicht mehr im Satz ist.</translation>
    </message>
    <message>
        <source>Keep-in without a name</source>
        <translation>Einsatzfläche ohne Namen</translation>
    </message>
    <message>
        <source>Keep-out without a name</source>
        <translation>Sperrfläche ohne Namen</translation>
    </message>
    <message>
        <source>Keep-in &quot;%1&quot;</source>
        <translation>Einsatzfläche „%1“</translation>
    </message>
    <message>
        <source>Keep-out &quot;%1&quot;</source>
        <translation>Sperrfläche „%1“</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>%1 is missing: nothing keeps the flight out of its %2.</source>
        <translation>%1 fehlt: Nichts hält den Flug aus ihren %2 heraus.</translation>
    </message>
    <message>
        <source>%1 is missing: no keep-in is left to bound the flight.</source>
        <translation>%1 fehlt: Keine Einsatzfläche bleibt, die den Flug begrenzt.</translation>
    </message>
    <message>
        <source>%1 is missing: its %2 are no longer open to flight.</source>
        <translation>%1 fehlt: Ihre %2 stehen dem Flug nicht mehr offen.</translation>
    </message>
    <message>
        <source>%1 was never approved: it opens %2.</source>
        <translation>%1 wurde nie genehmigt: Sie öffnet %2.</translation>
    </message>
    <message>
        <source>%1 was never approved: it closes %2.</source>
        <translation>%1 wurde nie genehmigt: Sie schließt %2.</translation>
    </message>
    <message>
        <source>%1 is named &quot;%2&quot;.</source>
        <translation>%1 heißt „%2“.</translation>
    </message>
    <message>
        <source>%1 is held as a keep-in.</source>
        <translation>%1 ist als Einsatzfläche gespeichert.</translation>
    </message>
    <message>
        <source>%1 is held as a keep-out.</source>
        <translation>%1 ist als Sperrfläche gespeichert.</translation>
    </message>
    <message>
        <source>%1 reaches beyond what was approved, by %2.</source>
        <translation>%1 reicht um %2 über das Genehmigte hinaus.</translation>
    </message>
    <message>
        <source>%1 does not cover all that was approved: %2 are missing.</source>
        <translation>%1 bedeckt nicht alles Genehmigte: %2 fehlen.</translation>
    </message>
    <message>
        <source>%1 has another ceiling: approved %2, held %3.</source>
        <translation>%1 hat eine andere Obergrenze: genehmigt %2, gespeichert %3.</translation>
    </message>
    <message>
        <source>%1 has another ceiling: approved %2, held %3; the two cannot be compared, so it may permit more.</source>
        <translation>%1 hat eine andere Obergrenze: genehmigt %2, gespeichert %3; beide sind nicht vergleichbar, sie könnte also mehr erlauben.</translation>
    </message>
    <message>
        <source>%1 has another floor: approved %2, held %3.</source>
        <translation>%1 hat eine andere Untergrenze: genehmigt %2, gespeichert %3.</translation>
    </message>
    <message>
        <source>%1 has another floor: approved %2, held %3; the two cannot be compared, so it may permit more.</source>
        <translation>%1 hat eine andere Untergrenze: genehmigt %2, gespeichert %3; beide sind nicht vergleichbar, sie könnte also mehr erlauben.</translation>
    </message>
    <message>
        <source>Make room on the disk, or choose another folder.</source>
        <translation>Schaffen Sie Platz auf dem Datenträger, oder wählen Sie einen anderen Ordner.</translation>
    </message>
    <message>
        <source>Choose a folder in which you may write.</source>
        <translation>Wählen Sie einen Ordner, in den Sie schreiben dürfen.</translation>
    </message>
    <message>
        <source>Choose a folder that exists.</source>
        <translation>Wählen Sie einen Ordner, den es gibt.</translation>
    </message>
    <message>
        <source>Choose a shorter name.</source>
        <translation>Wählen Sie einen kürzeren Namen.</translation>
    </message>
    <message>
        <source>Choose another folder.</source>
        <translation>Wählen Sie einen anderen Ordner.</translation>
    </message>
    <message>
        <source>No file is named.</source>
        <translation>Es ist keine Datei genannt.</translation>
    </message>
    <message>
        <source>This is a folder, not a file.</source>
        <translation>Das ist ein Ordner, keine Datei.</translation>
    </message>
    <message>
        <source>Give the file a name.</source>
        <translation>Geben Sie der Datei einen Namen.</translation>
    </message>
    <message>
        <source>This link leads nowhere.</source>
        <translation>Diese Verknüpfung führt nirgendwohin.</translation>
    </message>
    <message>
        <source>Remove the link, or choose another name.</source>
        <translation>Entfernen Sie die Verknüpfung, oder wählen Sie einen anderen Namen.</translation>
    </message>
    <message>
        <source>This is not an ordinary file.</source>
        <translation>Das ist keine gewöhnliche Datei.</translation>
    </message>
    <message>
        <source>Choose another name.</source>
        <translation>Wählen Sie einen anderen Namen.</translation>
    </message>
    <message>
        <source>The file that is there is read-only.</source>
        <translation>Die vorhandene Datei ist schreibgeschützt.</translation>
    </message>
    <message>
        <source>Choose another name, or make it writable.</source>
        <translation>Wählen Sie einen anderen Namen, oder machen Sie sie schreibbar.</translation>
    </message>
    <message>
        <source>No file can be made here</source>
        <translation>Hier kann keine Datei angelegt werden</translation>
    </message>
    <message>
        <source>%1: %2.</source>
        <translation>%1: %2.</translation>
    </message>
    <message>
        <source>The file could not be written</source>
        <translation>Die Datei konnte nicht geschrieben werden</translation>
    </message>
    <message>
        <source>The file could not be written to the disk</source>
        <translation>Die Datei konnte nicht auf den Datenträger geschrieben werden</translation>
    </message>
    <message>
        <source>The file could not be read back</source>
        <translation>Die Datei konnte nicht zurückgelesen werden</translation>
    </message>
    <message>
        <source>The file could not be finished</source>
        <translation>Die Datei konnte nicht abgeschlossen werden</translation>
    </message>
    <message>
        <source>The file could not take its name</source>
        <translation>Die Datei konnte ihren Namen nicht annehmen</translation>
    </message>
    <message>
        <source>The checksum could not be computed.</source>
        <translation>Die Prüfsumme konnte nicht berechnet werden.</translation>
    </message>
    <message>
        <source>Check the installation of OpenSSL&apos;s libcrypto.</source>
        <translation>Prüfen Sie die Installation von libcrypto aus OpenSSL.</translation>
    </message>
    <message>
        <source>The file was not delivered, since what was read back is not what was approved: %1</source>
        <translation>Die Datei wurde nicht ausgeliefert, weil das Zurückgelesene nicht das Genehmigte ist: %1</translation>
    </message>
    <message>
        <source>Nothing was changed. Try more decimals or a larger corner budget, and report this.</source>
        <translation>Nichts wurde geändert. Versuchen Sie mehr Nachkommastellen oder mehr Ecken, und melden Sie dies.</translation>
    </message>
    <message>
        <source>it goes under another identity</source>
        <translation>er läuft unter einer anderen Identität</translation>
    </message>
    <message>
        <source>of &quot;%1&quot;, %2.</source>
        <translation>zu „%1“: %2.</translation>
    </message>
    <message>
        <source>Write it like postgresql://name@host:5432/database.</source>
        <translation>Schreiben Sie sie wie postgresql://name@host:5432/database.</translation>
    </message>
    <message>
        <source>the server&apos;s address</source>
        <translation>die Adresse des Servers</translation>
    </message>
    <message>
        <source>A percent sign is not followed by two digits.</source>
        <translation>Auf ein Prozentzeichen folgen keine zwei Ziffern.</translation>
    </message>
    <message>
        <source>There is a control character in the address.</source>
        <translation>In der Adresse ist ein Steuerzeichen.</translation>
    </message>
    <message>
        <source>There is a password in the address.</source>
        <translation>In der Adresse steht ein Passwort.</translation>
    </message>
    <message>
        <source>Take it out: it is asked for, and it is kept nowhere.</source>
        <translation>Nehmen Sie es heraus: Es wird erfragt und nirgends aufbewahrt.</translation>
    </message>
    <message>
        <source>The address sets &quot;%1&quot;, which is not taken from an address.</source>
        <translation>Die Adresse setzt „%1“, was nicht aus einer Adresse genommen wird.</translation>
    </message>
    <message>
        <source>Leave it out; host, port, user, dbname and sslmode are taken.</source>
        <translation>Lassen Sie es weg; host, port, user, dbname und sslmode werden genommen.</translation>
    </message>
    <message>
        <source>The address names no database.</source>
        <translation>Die Adresse nennt keine Datenbank.</translation>
    </message>
    <message>
        <source>The address names several servers.</source>
        <translation>Die Adresse nennt mehrere Server.</translation>
    </message>
    <message>
        <source>Name the one to read from.</source>
        <translation>Nennen Sie den, von dem gelesen werden soll.</translation>
    </message>
    <message>
        <source>The port is not a number.</source>
        <translation>Der Port ist keine Zahl.</translation>
    </message>
    <message>
        <source>There is no sslmode &quot;%1&quot;.</source>
        <translation>Es gibt keinen sslmode „%1“.</translation>
    </message>
    <message>
        <source>Use require, verify-ca or verify-full, or leave it out.</source>
        <translation>Nehmen Sie require, verify-ca oder verify-full, oder lassen Sie es weg.</translation>
    </message>
    <message>
        <source>This is not the address of a PostgreSQL database.</source>
        <translation>Das ist nicht die Adresse einer PostgreSQL-Datenbank.</translation>
    </message>
    <message>
        <source>The bracket around the host is not closed.</source>
        <translation>Die Klammer um den Rechnernamen ist nicht geschlossen.</translation>
    </message>
    <message>
        <source>After the bracket around the host, a colon and the port are expected.</source>
        <translation>Nach der Klammer um den Rechnernamen werden ein Doppelpunkt und der Port erwartet.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is not the name of a table.</source>
        <translation>„%1“ ist nicht der Name einer Tabelle.</translation>
    </message>
    <message>
        <source>Write it like schema.table, or schema.table(geometry).</source>
        <translation>Schreiben Sie ihn wie schema.tabelle oder schema.tabelle(geometrie).</translation>
    </message>
    <message>
        <source>Coordinates cannot be written with %1 decimals.</source>
        <translation>Koordinaten können nicht mit %1 Nachkommastellen geschrieben werden.</translation>
    </message>
    <message>
        <source>Choose 4 to 12 decimals.</source>
        <translation>Wählen Sie 4 bis 12 Nachkommastellen.</translation>
    </message>
    <message>
        <source>Writing</source>
        <translation>Es wird geschrieben</translation>
    </message>
    <message>
        <source>Reading back and comparing</source>
        <translation>Es wird zurückgelesen und verglichen</translation>
    </message>
    <message>
        <source>Giving the file its name</source>
        <translation>Die Datei bekommt ihren Namen</translation>
    </message>
    <message>
        <source>%1 and %2 more</source>
        <translation>%1 und %2 weitere</translation>
    </message>
    <message>
        <source>The title of the set names a confidential site and is left out.</source>
        <translation>Der Titel des Satzes nennt ein vertrauliches Objekt und wird weggelassen.</translation>
    </message>
    <message>
        <source>Preparing fences</source>
        <translation>Zäune werden vorbereitet</translation>
    </message>
    <message>
        <source>There is no fence to deliver.</source>
        <translation>Es gibt keinen Zaun auszuliefern.</translation>
    </message>
    <message>
        <source>Draw a fence, or enable one.</source>
        <translation>Zeichnen Sie einen Zaun, oder schalten Sie einen ein.</translation>
    </message>
    <message>
        <source>This keep-out has no surface: nothing would keep the flight out of it.</source>
        <translation>Diese Sperrfläche hat keine Fläche: Nichts hielte den Flug aus ihr heraus.</translation>
    </message>
    <message>
        <source>Mend the fence, or disable it.</source>
        <translation>Reparieren Sie den Zaun, oder schalten Sie ihn aus.</translation>
    </message>
    <message>
        <source>The ceiling of &quot;%1&quot; is not drawn, only written: %2</source>
        <translation>Die Obergrenze von „%1“ ist nicht gezeichnet, nur geschrieben: %2</translation>
    </message>
    <message>
        <source>A height limit is not a number.</source>
        <translation>Eine Höhengrenze ist keine Zahl.</translation>
    </message>
    <message>
        <source>Give its floor and ceiling anew.</source>
        <translation>Geben Sie Unter- und Obergrenze neu an.</translation>
    </message>
    <message>
        <source>No keep-in with a surface is left to bound the flight.</source>
        <translation>Keine Einsatzfläche mit einer Fläche bleibt, die den Flug begrenzt.</translation>
    </message>
    <message>
        <source>Mend the keep-in, or disable it.</source>
        <translation>Reparieren Sie die Einsatzfläche, oder schalten Sie sie aus.</translation>
    </message>
    <message>
        <source>The set has no keep-in: what is delivered does not bound the flight.</source>
        <translation>Der Satz hat keine Einsatzfläche: Was ausgeliefert wird, begrenzt den Flug nicht.</translation>
    </message>
    <message>
        <source>The site &quot;%1&quot; is left out: %2</source>
        <translation>Das Schutzobjekt „%1“ ist ausgelassen: %2</translation>
    </message>
    <message>
        <source>Its place is not on the earth.</source>
        <translation>Der Ort liegt nicht auf der Erde.</translation>
    </message>
    <message>
        <source>It has no extent.</source>
        <translation>Es hat keine Ausdehnung.</translation>
    </message>
    <message>
        <source>The home &quot;%1&quot; is left out: %2</source>
        <translation>Der Rückkehrort „%1“ ist ausgelassen: %2</translation>
    </message>
    <message>
        <source>Left out because disabled</source>
        <translation>Ausgelassen, weil ausgeschaltet</translation>
    </message>
    <message>
        <source>Left out because without a surface</source>
        <translation>Ausgelassen, weil ohne Fläche</translation>
    </message>
    <message>
        <source>Keep-ins with dates or a season. A system that does not know dates would let the flight in at any time: take them out when they do not apply</source>
        <translation>Einsatzflächen mit Daten oder Jahreszeit. Ein System, das keine Daten kennt, ließe den Flug jederzeit hinein: Nehmen Sie sie heraus, wenn sie nicht gelten</translation>
    </message>
    <message>
        <source>Keep-outs with dates or a season. A system that does not know dates keeps the flight out at any time</source>
        <translation>Sperrflächen mit Daten oder Jahreszeit. Ein System, das keine Daten kennt, hält den Flug jederzeit heraus</translation>
    </message>
    <message>
        <source>Ceilings above ground are drawn at the corners; between them the drawing does not follow the ground</source>
        <translation>Obergrenzen über Grund sind an den Ecken gezeichnet; dazwischen folgt die Zeichnung nicht dem Boden</translation>
    </message>
    <message>
        <source>Keep-outs without a ceiling, drawn on the ground; they reach up without end</source>
        <translation>Sperrflächen ohne Obergrenze, auf dem Boden gezeichnet; sie reichen ohne Ende hinauf</translation>
    </message>
    <message>
        <source>Floors are written as data and not drawn. A system that does not read them must be told the heights</source>
        <translation>Untergrenzen sind als Daten geschrieben und nicht gezeichnet. Einem System, das sie nicht liest, muss man die Höhen sagen</translation>
    </message>
    <message>
        <source>Heights are written as properties. A system that does not read them must be told the heights</source>
        <translation>Höhen sind als Eigenschaften geschrieben. Einem System, das sie nicht liest, muss man die Höhen sagen</translation>
    </message>
    <message>
        <source>Long edges got %1 more corners, so that a system that draws geodesics parts from them by at most 0.1 m: %2.</source>
        <translation>Lange Kanten bekamen %1 weitere Ecken, damit ein System, das Geodäten zeichnet, um höchstens 0.1 m davon abweicht: %2.</translation>
    </message>
    <message>
        <source>Long edges on which a system that draws geodesics may part by more than 0.1 m; there was no room for more corners</source>
        <translation>Lange Kanten, auf denen ein System, das Geodäten zeichnet, um mehr als 0.1 m abweichen kann; für weitere Ecken war kein Platz</translation>
    </message>
    <message>
        <source>More corners than the budget allows</source>
        <translation>Mehr Ecken, als erlaubt sind</translation>
    </message>
    <message>
        <source>Confidential sites left out: %1.</source>
        <translation>Vertrauliche Objekte ausgelassen: %1.</translation>
    </message>
    <message>
        <source>Fences of confidential sites go under neutral names, without citation and notes: %1. The middle of such a fence still gives the place away: hand the file only to those who may know.</source>
        <translation>Zäune vertraulicher Objekte laufen unter neutralen Namen, ohne Fundstelle und Notizen: %1. Die Mitte eines solchen Zauns verrät den Ort trotzdem: Geben Sie die Datei nur denen, die ihn kennen dürfen.</translation>
    </message>
    <message>
        <source>%1 columns beyond the first %2 are not read.</source>
        <translation>%1 Spalten nach den ersten %2 werden nicht gelesen.</translation>
    </message>
    <message>
        <source>text that is not UTF-8 is read as ISO-8859-1, here and further on.</source>
        <translation>Text, der nicht UTF-8 ist, wird als ISO-8859-1 gelesen, hier und weiterhin.</translation>
    </message>
    <message>
        <source>a text of %1 KiB is cut to 64 KiB.</source>
        <translation>ein Text von %1 KiB wird auf 64 KiB gekürzt.</translation>
    </message>
    <message>
        <source>The program that reads foreign files cannot be started: %1.</source>
        <translation>Das Programm, das fremde Dateien liest, kann nicht gestartet werden: %1.</translation>
    </message>
    <message>
        <source>Install Fencewright anew: the two programs belong together.</source>
        <translation>Installieren Sie Fencewright neu: Die beiden Programme gehören zusammen.</translation>
    </message>
    <message>
        <source>The server does not accept the name %1 with this password.</source>
        <translation>Der Server nimmt den Namen %1 mit diesem Passwort nicht an.</translation>
    </message>
    <message>
        <source>Type both anew, or ask whoever keeps the server.</source>
        <translation>Tippen Sie beides neu, oder fragen Sie, wer den Server betreibt.</translation>
    </message>
    <message>
        <source>The server asks %1 for a password.</source>
        <translation>Der Server verlangt von %1 ein Passwort.</translation>
    </message>
    <message>
        <source>Connect with the password.</source>
        <translation>Verbinden Sie mit dem Passwort.</translation>
    </message>
    <message>
        <source>There is no database &quot;%1&quot; on the server.</source>
        <translation>Auf dem Server gibt es keine Datenbank „%1“.</translation>
    </message>
    <message>
        <source>Check the last part of the address.</source>
        <translation>Prüfen Sie den letzten Teil der Adresse.</translation>
    </message>
    <message>
        <source>The server does not let %1 in: %2.</source>
        <translation>Der Server lässt %1 nicht ein: %2.</translation>
    </message>
    <message>
        <source>Ask whoever keeps the server for access from this machine.</source>
        <translation>Bitten Sie, wer den Server betreibt, um Zugang von diesem Rechner.</translation>
    </message>
    <message>
        <source>The server cannot be reached: %1.</source>
        <translation>Der Server ist nicht zu erreichen: %1.</translation>
    </message>
    <message>
        <source>Check the address, and that the server runs and the network is there.</source>
        <translation>Prüfen Sie die Adresse, und ob der Server läuft und das Netz da ist.</translation>
    </message>
    <message>
        <source>This process does not speak to servers.</source>
        <translation>Dieser Prozess spricht nicht mit Servern.</translation>
    </message>
    <message>
        <source>Read the table through the reading process.</source>
        <translation>Lesen Sie die Tabelle durch den lesenden Prozess.</translation>
    </message>
    <message>
        <source>The database has no PostGIS, so there are no geometries in it.</source>
        <translation>Die Datenbank hat kein PostGIS, also keine Geometrien.</translation>
    </message>
    <message>
        <source>Check the name of the database, or ask whoever keeps the server to CREATE EXTENSION postgis.</source>
        <translation>Prüfen Sie den Namen der Datenbank, oder bitten Sie, wer den Server betreibt, um CREATE EXTENSION postgis.</translation>
    </message>
    <message>
        <source>There is no table %1 in the database.</source>
        <translation>In der Datenbank gibt es keine Tabelle %1.</translation>
    </message>
    <message>
        <source>Choose another one, or ask whoever keeps the server what became of it.</source>
        <translation>Wählen Sie eine andere, oder fragen Sie, wer den Server betreibt, was aus ihr wurde.</translation>
    </message>
    <message>
        <source>The user may not read the table %1.</source>
        <translation>Der Benutzer darf die Tabelle %1 nicht lesen.</translation>
    </message>
    <message>
        <source>Ask whoever keeps the server for the right to: GRANT SELECT ON %1.</source>
        <translation>Bitten Sie, wer den Server betreibt, um das Recht: GRANT SELECT ON %1.</translation>
    </message>
    <message>
        <source>There is no geometry in the table %1.</source>
        <translation>In der Tabelle %1 ist keine Geometrie.</translation>
    </message>
    <message>
        <source>Choose another table.</source>
        <translation>Wählen Sie eine andere Tabelle.</translation>
    </message>
    <message>
        <source>the column &quot;%1&quot; is not read: %2</source>
        <translation>die Spalte „%1“ wird nicht gelesen: %2</translation>
    </message>
    <message>
        <source>The filter &quot;%1&quot; is not understood: %2.</source>
        <translation>Der Filter „%1“ wird nicht verstanden: %2.</translation>
    </message>
    <message>
        <source>Write it like: category = &apos;lease&apos; AND area &gt; 500.</source>
        <translation>Schreiben Sie ihn wie: category = &apos;lease&apos; AND area &gt; 500.</translation>
    </message>
    <message>
        <source>No table of the database is named.</source>
        <translation>Es ist keine Tabelle der Datenbank genannt.</translation>
    </message>
    <message>
        <source>Name one like schema.table, after the address and &quot;#&quot;.</source>
        <translation>Nennen Sie eine wie schema.tabelle, nach der Adresse und „#“.</translation>
    </message>
    <message>
        <source>The shapes of %1 are in several coordinate systems: SRID %2.</source>
        <translation>Die Formen von %1 sind in mehreren Koordinatensystemen: SRID %2.</translation>
    </message>
    <message>
        <source>Read those of one by a filter: ST_SRID(%1) = %2.</source>
        <translation>Lesen Sie die von einem durch einen Filter: ST_SRID(%1) = %2.</translation>
    </message>
    <message>
        <source>The server does not give the table: %1.</source>
        <translation>Der Server gibt die Tabelle nicht heraus: %1.</translation>
    </message>
    <message>
        <source>Ask whoever keeps the server.</source>
        <translation>Fragen Sie, wer den Server betreibt.</translation>
    </message>
    <message>
        <source>The server does not list its tables: %1.</source>
        <translation>Der Server listet seine Tabellen nicht auf: %1.</translation>
    </message>
    <message>
        <source>%1 cannot be read: %2</source>
        <translation>%1 kann nicht gelesen werden: %2</translation>
    </message>
    <message>
        <source>the keep-in is switched off until you have set it.</source>
        <translation>die Einsatzfläche ist ausgeschaltet, bis Sie ihn gesetzt haben.</translation>
    </message>
    <message>
        <source>the keep-out applies without this limit.</source>
        <translation>die Sperrfläche gilt ohne diese Grenze.</translation>
    </message>
    <message>
        <source>its position error &quot;%1&quot; is no number of metres: taken as none.</source>
        <translation>der Ortsfehler „%1“ ist keine Zahl von Metern: als keiner genommen.</translation>
    </message>
    <message>
        <source>its landing radius &quot;%1&quot; is no number of metres: 10 m are kept.</source>
        <translation>der Landeradius „%1“ ist keine Zahl von Metern: 10 m bleiben.</translation>
    </message>
    <message>
        <source>Ask for another copy of the file, or save it anew with the program that wrote it.</source>
        <translation>Bitten Sie um eine andere Kopie der Datei, oder speichern Sie sie mit dem Programm neu, das sie schrieb.</translation>
    </message>
    <message>
        <source>The file cannot be found: %1.</source>
        <translation>Die Datei ist nicht zu finden: %1.</translation>
    </message>
    <message>
        <source>Check the name, and that the drive it lies on is connected.</source>
        <translation>Prüfen Sie den Namen, und ob das Laufwerk verbunden ist, auf dem sie liegt.</translation>
    </message>
    <message>
        <source>Choose a file in it.</source>
        <translation>Wählen Sie eine Datei darin.</translation>
    </message>
    <message>
        <source>Copy its content into a file first.</source>
        <translation>Kopieren Sie den Inhalt zuerst in eine Datei.</translation>
    </message>
    <message>
        <source>The file cannot be opened: %1.</source>
        <translation>Die Datei kann nicht geöffnet werden: %1.</translation>
    </message>
    <message>
        <source>Ask whoever owns it for the right to read it.</source>
        <translation>Bitten Sie, wem sie gehört, um das Recht, sie zu lesen.</translation>
    </message>
    <message>
        <source>The file is empty.</source>
        <translation>Die Datei ist leer.</translation>
    </message>
    <message>
        <source>The file cannot be read to its end.</source>
        <translation>Die Datei kann nicht bis zu ihrem Ende gelesen werden.</translation>
    </message>
    <message>
        <source>Files below a folder whose name begins with &quot;vsi&quot; at the root of the disk are not read.</source>
        <translation>Dateien unter einem Ordner, dessen Name an der Wurzel des Datenträgers mit „vsi“ beginnt, werden nicht gelesen.</translation>
    </message>
    <message>
        <source>Copy the file elsewhere.</source>
        <translation>Kopieren Sie die Datei woandershin.</translation>
    </message>
    <message>
        <source>The file cannot be read as %1: %2.</source>
        <translation>Die Datei kann nicht als %1 gelesen werden: %2.</translation>
    </message>
    <message>
        <source>another program has the file open; what it has not yet written into it is not read.</source>
        <translation>ein anderes Programm hat die Datei offen; was es noch nicht hineingeschrieben hat, wird nicht gelesen.</translation>
    </message>
    <message>
        <source>The .shx file that belongs to the shapefile is missing: it says where each shape begins.</source>
        <translation>Die Datei .shx fehlt, die zum Shapefile gehört: Sie sagt, wo jede Form beginnt.</translation>
    </message>
    <message>
        <source>Put all parts (.shp, .shx, .dbf, .prj) of it into the same folder.</source>
        <translation>Legen Sie alle Teile (.shp, .shx, .dbf, .prj) in denselben Ordner.</translation>
    </message>
    <message>
        <source>the .dbf file that belongs to the shapefile is missing: there are no attributes.</source>
        <translation>die Datei .dbf fehlt, die zum Shapefile gehört: Es gibt keine Attribute.</translation>
    </message>
    <message>
        <source>the shapefile does not say how its text is encoded: read as ISO-8859-1.</source>
        <translation>das Shapefile sagt nicht, wie sein Text kodiert ist: als ISO-8859-1 gelesen.</translation>
    </message>
    <message>
        <source>The text is not in the encoding %1.</source>
        <translation>Der Text ist nicht in der Kodierung %1.</translation>
    </message>
    <message>
        <source>Name the encoding it is in.</source>
        <translation>Nennen Sie die Kodierung, in der er ist.</translation>
    </message>
    <message>
        <source>1 entry of &quot;features&quot; is no feature.</source>
        <translation>1 Eintrag von „features“ ist kein Feature.</translation>
    </message>
    <message>
        <source>%1 entries of &quot;features&quot; are no features.</source>
        <translation>%1 Einträge von „features“ sind keine Features.</translation>
    </message>
    <message>
        <source>Feature %1 cannot be read: %2.</source>
        <translation>Objekt %1 kann nicht gelesen werden: %2.</translation>
    </message>
    <message>
        <source>The content is XML, but not KML: its root is &lt;%1&gt;.</source>
        <translation>Der Inhalt ist XML, aber nicht KML: Seine Wurzel ist &lt;%1&gt;.</translation>
    </message>
    <message>
        <source>The name says GML, but the content is KML.</source>
        <translation>Der Name sagt GML, aber der Inhalt ist KML.</translation>
    </message>
    <message>
        <source>Rename the file to end with .kml.</source>
        <translation>Benennen Sie die Datei so um, dass sie auf .kml endet.</translation>
    </message>
    <message>
        <source>The archive holds no .kml document, so it is no KMZ.</source>
        <translation>Das Archiv enthält kein .kml-Dokument, ist also kein KMZ.</translation>
    </message>
    <message>
        <source>If it holds a shapefile, name it .zip.</source>
        <translation>Enthält es ein Shapefile, nennen Sie es .zip.</translation>
    </message>
    <message>
        <source>the archive holds %1 KML documents; only %2 is read.</source>
        <translation>das Archiv enthält %1 KML-Dokumente; nur %2 wird gelesen.</translation>
    </message>
    <message>
        <source>The document in the archive is not XML.</source>
        <translation>Das Dokument im Archiv ist kein XML.</translation>
    </message>
    <message>
        <source>The archive holds no shapefile.</source>
        <translation>Das Archiv enthält kein Shapefile.</translation>
    </message>
    <message>
        <source>If it holds a KML document, name it .kmz.</source>
        <translation>Enthält es ein KML-Dokument, nennen Sie es .kmz.</translation>
    </message>
    <message>
        <source>The name does not end as one of a format that can be read.</source>
        <translation>Der Name endet nicht wie der eines Formats, das gelesen werden kann.</translation>
    </message>
    <message>
        <source>Readable are %1.</source>
        <translation>Lesbar sind %1.</translation>
    </message>
    <message>
        <source>The file has %1 MiB; of %2, at most %3 MiB are read.</source>
        <translation>Die Datei hat %1 MiB; von %2 werden höchstens %3 MiB gelesen.</translation>
    </message>
    <message>
        <source>Cut it into parts, or convert it to a GeoPackage.</source>
        <translation>Schneiden Sie sie in Teile, oder wandeln Sie sie in ein GeoPackage um.</translation>
    </message>
    <message>
        <source>The name says %1, but the content is %2.</source>
        <translation>Der Name sagt %1, aber der Inhalt ist %2.</translation>
    </message>
    <message>
        <source>The text is JSON, but no object.</source>
        <translation>Der Text ist JSON, aber kein Objekt.</translation>
    </message>
    <message>
        <source>a member of its GeometryCollection is not a geometry</source>
        <translation>ein Mitglied der GeometryCollection ist keine Geometrie</translation>
    </message>
    <message>
        <source>its geometry is not an object</source>
        <translation>die Geometrie ist kein Objekt</translation>
    </message>
    <message>
        <source>The text is JSON, but its root is a list, not an object.</source>
        <translation>Der Text ist JSON, aber seine Wurzel ist eine Liste, kein Objekt.</translation>
    </message>
    <message>
        <source>its type is not &quot;Feature&quot;</source>
        <translation>der Typ ist nicht „Feature“</translation>
    </message>
    <message>
        <source>its GeometryCollection has no list of geometries</source>
        <translation>die GeometryCollection hat keine Liste von Geometrien</translation>
    </message>
    <message>
        <source>its geometry has no type</source>
        <translation>die Geometrie hat keinen Typ</translation>
    </message>
    <message>
        <source>its geometry is of the type &quot;%1&quot;, which GeoJSON does not have</source>
        <translation>die Geometrie ist vom Typ „%1“, den GeoJSON nicht hat</translation>
    </message>
    <message>
        <source>its %1 has no list of coordinates</source>
        <translation>sein %1 hat keine Liste von Koordinaten</translation>
    </message>
    <message>
        <source>the coordinates of its %1 are not the lists of numbers that a %2 has</source>
        <translation>die Koordinaten von %1 sind nicht die Listen von Zahlen, die ein %2 hat</translation>
    </message>
    <message>
        <source>The FeatureCollection has no list of features.</source>
        <translation>Die FeatureCollection hat keine Liste von Features.</translation>
    </message>
    <message>
        <source>The object has no type, so it is not GeoJSON.</source>
        <translation>Das Objekt hat keinen Typ, ist also kein GeoJSON.</translation>
    </message>
    <message>
        <source>The object is of the type &quot;%1&quot;, which GeoJSON does not have.</source>
        <translation>Das Objekt ist vom Typ „%1“, den GeoJSON nicht hat.</translation>
    </message>
    <message>
        <source>The JSON is nested more than %1 deep.</source>
        <translation>Das JSON ist mehr als %1 tief verschachtelt.</translation>
    </message>
    <message>
        <source>Feature %1 has more than %2 corners.</source>
        <translation>Objekt %1 hat mehr als %2 Ecken.</translation>
    </message>
    <message>
        <source>Cut it into parts, or convert the file to a GeoPackage.</source>
        <translation>Schneiden Sie es in Teile, oder wandeln Sie die Datei in ein GeoPackage um.</translation>
    </message>
    <message>
        <source>The text is not UTF-8, as JSON must be.</source>
        <translation>Der Text ist nicht UTF-8, wie JSON es sein muss.</translation>
    </message>
    <message>
        <source>The text is not JSON: %1.</source>
        <translation>Der Text ist kein JSON: %1.</translation>
    </message>
    <message>
        <source>There are more than %1 corners.</source>
        <translation>Es sind mehr als %1 Ecken.</translation>
    </message>
    <message>
        <source>Read a part of the file by a filter, or raise the limit.</source>
        <translation>Lesen Sie durch einen Filter einen Teil der Datei, oder erhöhen Sie die Grenze.</translation>
    </message>
    <message>
        <source>each feature has several geometries; only &quot;%1&quot; is read.</source>
        <translation>jedes Objekt hat mehrere Geometrien; nur „%1“ wird gelesen.</translation>
    </message>
    <message>
        <source>There is nothing in the file that could be read as a layer.</source>
        <translation>In der Datei ist nichts, was als Ebene gelesen werden könnte.</translation>
    </message>
    <message>
        <source>Check that it is the file you mean.</source>
        <translation>Prüfen Sie, ob es die Datei ist, die Sie meinen.</translation>
    </message>
    <message>
        <source>There is no layer &quot;%1&quot; in the file.</source>
        <translation>In der Datei gibt es keine Ebene „%1“.</translation>
    </message>
    <message>
        <source>It has %1.</source>
        <translation>Sie hat %1.</translation>
    </message>
    <message>
        <source>the file has %1 layers (%2); &quot;%3&quot; is read.</source>
        <translation>die Datei hat %1 Ebenen (%2); „%3“ wird gelesen.</translation>
    </message>
    <message>
        <source>No columns with coordinates are found. The columns are %1.</source>
        <translation>Es sind keine Spalten mit Koordinaten zu finden. Die Spalten sind %1.</translation>
    </message>
    <message>
        <source>Name the columns %1 in the first line.</source>
        <translation>Nennen Sie die Spalten %1 in der ersten Zeile.</translation>
    </message>
    <message>
        <source>the file says its CRS is %1; it is read as %2, as you said.</source>
        <translation>die Datei sagt, ihr Koordinatensystem sei %1; sie wird als %2 gelesen, wie Sie sagten.</translation>
    </message>
    <message>
        <source>longitudes and latitudes are taken to be WGS 84: the table does not say.</source>
        <translation>Längen und Breiten werden als WGS 84 genommen: Die Tabelle sagt es nicht.</translation>
    </message>
    <message>
        <source>The server does not say in which coordinate reference system (CRS) the shapes of %1 are: it knows no definition of their SRID.</source>
        <translation>Der Server sagt nicht, in welchem Koordinatenreferenzsystem (CRS) die Formen von %1 sind: Er kennt keine Definition ihrer SRID.</translation>
    </message>
    <message>
        <source>Say which, such as EPSG:25829; whoever made the table knows.</source>
        <translation>Sagen Sie es, etwa EPSG:25829; wer die Tabelle gemacht hat, weiß es.</translation>
    </message>
    <message>
        <source>feature %1</source>
        <translation>Objekt %1</translation>
    </message>
    <message>
        <source>%1.</source>
        <translation>%1.</translation>
    </message>
    <message>
        <source>There are more than %1 features.</source>
        <translation>Es sind mehr als %1 Objekte.</translation>
    </message>
    <message>
        <source>record %1</source>
        <translation>Datensatz %1</translation>
    </message>
    <message>
        <source>The server broke off %1: %2.</source>
        <translation>Der Server brach ab %1: %2.</translation>
    </message>
    <message>
        <source>Try again; nothing was kept of it.</source>
        <translation>Versuchen Sie es noch einmal; nichts davon wurde aufbewahrt.</translation>
    </message>
    <message>
        <source>the file is damaged: %1. What follows is not read.</source>
        <translation>die Datei ist beschädigt: %1. Was folgt, wird nicht gelesen.</translation>
    </message>
    <message>
        <source>the file says that it holds %1 features, but %2 are in it.</source>
        <translation>die Datei sagt, sie enthalte %1 Objekte, aber %2 sind darin.</translation>
    </message>
    <message>
        <source>%1 features do not meet the filter.</source>
        <translation>%1 Objekte erfüllen den Filter nicht.</translation>
    </message>
    <message>
        <source>its geometry cannot be read: %1.</source>
        <translation>die Geometrie kann nicht gelesen werden: %1.</translation>
    </message>
    <message>
        <source>a ring was not closed: its last corner is joined to its first.</source>
        <translation>ein Ring war nicht geschlossen: Seine letzte Ecke wird mit der ersten verbunden.</translation>
    </message>
    <message>
        <source>%1 rings were not closed: their last corners are joined to their first.</source>
        <translation>%1 Ringe waren nicht geschlossen: Ihre letzten Ecken werden mit den ersten verbunden.</translation>
    </message>
    <message>
        <source>an edge spans more than 180 degrees of longitude: it is taken the short way, across the antimeridian.</source>
        <translation>eine Kante überspannt mehr als 180 Grad Länge: Sie wird auf dem kurzen Weg genommen, über die Datumsgrenze.</translation>
    </message>
    <message>
        <source>%1 and others</source>
        <translation>%1 und andere</translation>
    </message>
    <message>
        <source>1 feature has no geometry.</source>
        <translation>1 Objekt hat keine Geometrie.</translation>
    </message>
    <message>
        <source>%1 features have no geometry.</source>
        <translation>%1 Objekte haben keine Geometrie.</translation>
    </message>
    <message>
        <source>%1 corners were added to %2 shapes, so that edges that are straight in %3 stay within 1 mm of their place.</source>
        <translation>%1 Ecken wurden zu %2 Formen hinzugefügt, damit Kanten, die in %3 gerade sind, auf 1 mm an ihrem Ort bleiben.</translation>
    </message>
    <message>
        <source>in %1 features, arcs were replaced by chords that part from them by at most 1 cm.</source>
        <translation>in %1 Objekten wurden Bögen durch Sehnen ersetzt, die um höchstens 1 cm davon abweichen.</translation>
    </message>
    <message>
        <source>closed lines of the drawing are read as surfaces; arcs were replaced by chords of half a degree, which part from them by at most a hundred-thousandth of the radius.</source>
        <translation>geschlossene Linien der Zeichnung werden als Flächen gelesen; Bögen wurden durch Sehnen von einem halben Grad ersetzt, die um höchstens ein Hunderttausendstel des Radius davon abweichen.</translation>
    </message>
    <message>
        <source>The file needs more memory than there is.</source>
        <translation>Die Datei braucht mehr Speicher, als da ist.</translation>
    </message>
    <message>
        <source>Close other programs, or read a part of it.</source>
        <translation>Schließen Sie andere Programme, oder lesen Sie einen Teil davon.</translation>
    </message>
    <message>
        <source>and %1 more notes like these.</source>
        <translation>und %1 weitere Bemerkungen wie diese.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is not a text encoding that is known here.</source>
        <translation>„%1“ ist keine Textkodierung, die hier bekannt ist.</translation>
    </message>
    <message>
        <source>Name one such as UTF-8, ISO-8859-7 or Windows-1252.</source>
        <translation>Nennen Sie eine wie UTF-8, ISO-8859-7 oder Windows-1252.</translation>
    </message>
    <message>
        <source>The answer of the reading program is garbled.</source>
        <translation>Die Antwort des lesenden Programms ist verstümmelt.</translation>
    </message>
    <message>
        <source>Check that the program is the one that was installed.</source>
        <translation>Prüfen Sie, ob das Programm das installierte ist.</translation>
    </message>
    <message>
        <source>The document declares entities, which are not read: they can stand for other files or for gigabytes.</source>
        <translation>Das Dokument deklariert Entities, die nicht gelesen werden: Sie können für andere Dateien oder für Gigabytes stehen.</translation>
    </message>
    <message>
        <source>Ask for the file without a DOCTYPE, or save it anew with the program that wrote it.</source>
        <translation>Bitten Sie um die Datei ohne DOCTYPE, oder speichern Sie sie mit dem Programm neu, das sie schrieb.</translation>
    </message>
    <message>
        <source>The elements are nested more than %1 deep.</source>
        <translation>Die Elemente sind mehr als %1 tief verschachtelt.</translation>
    </message>
    <message>
        <source>No map document needs that: ask for another copy of the file.</source>
        <translation>Kein Kartendokument braucht das: Bitten Sie um eine andere Kopie der Datei.</translation>
    </message>
    <message>
        <source>The coordinates &quot;%1&quot; are not a longitude and a latitude.</source>
        <translation>Die Koordinaten „%1“ sind nicht Länge und Breite.</translation>
    </message>
    <message>
        <source>Mend that line, or ask for another copy of the file.</source>
        <translation>Berichtigen Sie die Zeile, oder bitten Sie um eine andere Kopie der Datei.</translation>
    </message>
    <message>
        <source>The ZIP archive is damaged: its table of contents cannot be read.</source>
        <translation>Das ZIP-Archiv ist beschädigt: Sein Inhaltsverzeichnis kann nicht gelesen werden.</translation>
    </message>
    <message>
        <source>The ZIP archive has more than %1 members.</source>
        <translation>Das ZIP-Archiv hat mehr als %1 Mitglieder.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; in the ZIP archive cannot be unpacked.</source>
        <translation>„%1“ im ZIP-Archiv kann nicht entpackt werden.</translation>
    </message>
    <message>
        <source>The ZIP archive of %1 KiB unpacks to more than %2 MiB, which is more than is read here.</source>
        <translation>Das ZIP-Archiv von %1 KiB entpackt sich zu mehr als %2 MiB, mehr als hier gelesen wird.</translation>
    </message>
    <message>
        <source>The ZIP archive needs more memory than there is.</source>
        <translation>Das ZIP-Archiv braucht mehr Speicher, als da ist.</translation>
    </message>
    <message>
        <source>The height is not known everywhere.</source>
        <translation>Die Höhe ist nicht überall bekannt.</translation>
    </message>
    <message>
        <source>its walls have no height</source>
        <translation>seine Wände haben keine Höhe</translation>
    </message>
    <message>
        <source>it is drawn with a ceiling and has none</source>
        <translation>er ist mit Obergrenze gezeichnet und hat keine</translation>
    </message>
    <message>
        <source>its walls reach below its floor</source>
        <translation>seine Wände reichen unter die Untergrenze</translation>
    </message>
    <message>
        <source>it is drawn higher than its ceiling</source>
        <translation>er ist höher als seine Obergrenze gezeichnet</translation>
    </message>
    <message>
        <source>it is drawn lower than its ceiling</source>
        <translation>er ist niedriger als seine Obergrenze gezeichnet</translation>
    </message>
    <message>
        <source>its ceiling is drawn from another reference</source>
        <translation>seine Obergrenze ist von einem anderen Bezug aus gezeichnet</translation>
    </message>
    <message>
        <source>There are more corners than can be kept.</source>
        <translation>Es sind mehr Ecken, als aufbewahrt werden können.</translation>
    </message>
    <message>
        <source>Read a part of the file by a filter.</source>
        <translation>Lesen Sie durch einen Filter einen Teil der Datei.</translation>
    </message>
    <message>
        <source>A coordinate is not a finite number.</source>
        <translation>Eine Koordinate ist keine endliche Zahl.</translation>
    </message>
    <message>
        <source>Repair the file.</source>
        <translation>Reparieren Sie die Datei.</translation>
    </message>
    <message>
        <source>This format cannot be written.</source>
        <translation>Dieses Format kann nicht geschrieben werden.</translation>
    </message>
    <message>
        <source>Choose one of the formats listed.</source>
        <translation>Wählen Sie eines der aufgeführten Formate.</translation>
    </message>
    <message>
        <source>There is no column &quot;%1&quot;.</source>
        <translation>Es gibt keine Spalte „%1“.</translation>
    </message>
    <message>
        <source>Choose another column for the names, or none.</source>
        <translation>Wählen Sie eine andere Spalte für die Namen, oder keine.</translation>
    </message>
    <message>
        <source>feature %1, %2</source>
        <translation>Objekt %1, %2</translation>
    </message>
    <message>
        <source>it is a %1 by its own account.</source>
        <translation>es ist nach eigener Angabe: %1.</translation>
    </message>
    <message>
        <source>one part of it is no surface.</source>
        <translation>ein Teil davon ist keine Fläche.</translation>
    </message>
    <message>
        <source>%1 parts of it are no surfaces.</source>
        <translation>%1 Teile davon sind keine Flächen.</translation>
    </message>
    <message>
        <source>one part of it is no point.</source>
        <translation>ein Teil davon ist kein Punkt.</translation>
    </message>
    <message>
        <source>%1 parts of it are no points.</source>
        <translation>%1 Teile davon sind keine Punkte.</translation>
    </message>
    <message>
        <source>Choose another column for the numbers, or none.</source>
        <translation>Wählen Sie eine andere Spalte für die Nummern, oder keine.</translation>
    </message>
    <message>
        <source>The file is not what it should be; do not use it, and report this.</source>
        <translation>Die Datei ist nicht, was sie sein sollte; benutzen Sie sie nicht, und melden Sie dies.</translation>
    </message>
    <message>
        <source>A coordinate is beyond 180 degrees of longitude or 90 of latitude.</source>
        <translation>Eine Koordinate liegt jenseits von 180 Grad Länge oder 90 Grad Breite.</translation>
    </message>
    <message>
        <source>A ring has fewer than four positions.</source>
        <translation>Ein Ring hat weniger als vier Positionen.</translation>
    </message>
    <message>
        <source>A ring is not closed.</source>
        <translation>Ein Ring ist nicht geschlossen.</translation>
    </message>
    <message>
        <source>The %1 is not a number of metres with its reference.</source>
        <translation>%1 ist keine Zahl von Metern mit ihrem Bezug.</translation>
    </message>
    <message>
        <source>The reference of the %1 is unknown: &quot;%2&quot;.</source>
        <translation>Der Bezug von %1 ist unbekannt: „%2“.</translation>
    </message>
    <message>
        <source>It does not say whether it is a fence, a site or a home.</source>
        <translation>Es sagt nicht, ob es Zaun, Schutzobjekt oder Rückkehrort ist.</translation>
    </message>
    <message>
        <source>It does not say whether it is a keep-in or a keep-out.</source>
        <translation>Es sagt nicht, ob es Einsatz- oder Sperrfläche ist.</translation>
    </message>
    <message>
        <source>The member &quot;%1&quot; is missing.</source>
        <translation>Das Mitglied „%1“ fehlt.</translation>
    </message>
    <message>
        <source>An array was expected.</source>
        <translation>Ein Array wurde erwartet.</translation>
    </message>
    <message>
        <source>A position is not a longitude and a latitude.</source>
        <translation>Eine Position ist nicht Länge und Breite.</translation>
    </message>
    <message>
        <source>A polygon has no ring.</source>
        <translation>Ein Polygon hat keinen Ring.</translation>
    </message>
    <message>
        <source>The properties are not an object.</source>
        <translation>Die Eigenschaften sind kein Objekt.</translation>
    </message>
    <message>
        <source>The property &quot;%1&quot; is neither text nor a number.</source>
        <translation>Die Eigenschaft „%1“ ist weder Text noch Zahl.</translation>
    </message>
    <message>
        <source>There is not exactly one %1 in a %2.</source>
        <translation>Es ist nicht genau ein %1 in einem %2.</translation>
    </message>
    <message>
        <source>The parts of one fence are drawn in different ways.</source>
        <translation>Die Teile eines Zauns sind verschieden gezeichnet.</translation>
    </message>
    <message>
        <source>A coordinate is not a number.</source>
        <translation>Eine Koordinate ist keine Zahl.</translation>
    </message>
    <message>
        <source>A tuple has the wrong number of coordinates.</source>
        <translation>Ein Tupel hat die falsche Zahl von Koordinaten.</translation>
    </message>
    <message>
        <source>The altitude mode is unknown: &quot;%1&quot;.</source>
        <translation>Der Höhenmodus ist unbekannt: „%1“.</translation>
    </message>
    <message>
        <source>It is not JSON.</source>
        <translation>Es ist kein JSON.</translation>
    </message>
    <message>
        <source>byte %1</source>
        <translation>Byte %1</translation>
    </message>
    <message>
        <source>It is not a feature collection of RFC 7946.</source>
        <translation>Es ist keine FeatureCollection nach RFC 7946.</translation>
    </message>
    <message>
        <source>the file</source>
        <translation>die Datei</translation>
    </message>
    <message>
        <source>It is not a feature.</source>
        <translation>Es ist kein Feature.</translation>
    </message>
    <message>
        <source>A fence is neither a Polygon nor a MultiPolygon.</source>
        <translation>Ein Zaun ist weder Polygon noch MultiPolygon.</translation>
    </message>
    <message>
        <source>It is not XML: %1.</source>
        <translation>Es ist kein XML: %1.</translation>
    </message>
    <message>
        <source>It is not KML 2.2.</source>
        <translation>Es ist kein KML 2.2.</translation>
    </message>
    <message>
        <source>The file does not say in which coordinate reference system (CRS) its coordinates are.</source>
        <translation>Die Datei sagt nicht, in welchem Koordinatenreferenzsystem (CRS) ihre Koordinaten sind.</translation>
    </message>
    <message>
        <source>Say which, such as EPSG:25829; whoever made the file knows.</source>
        <translation>Sagen Sie es, etwa EPSG:25829; wer die Datei gemacht hat, weiß es.</translation>
    </message>
    <message>
        <source>Opening the file</source>
        <translation>Die Datei wird geöffnet</translation>
    </message>
    <message>
        <source>This program does not answer as a stream.</source>
        <translation>Dieses Programm antwortet nicht als Strom.</translation>
    </message>
    <message>
        <source>The file needs more memory than it may have.</source>
        <translation>Die Datei braucht mehr Speicher, als sie haben darf.</translation>
    </message>
    <message>
        <source>Cut it into parts.</source>
        <translation>Schneiden Sie sie in Teile.</translation>
    </message>
    <message>
        <source>The reader failed: %1.</source>
        <translation>Das lesende Programm ist gescheitert: %1.</translation>
    </message>
    <message>
        <source>Convert the file to another format.</source>
        <translation>Wandeln Sie die Datei in ein anderes Format um.</translation>
    </message>
    <message>
        <source>The surface cannot be cut at the antimeridian with so few decimals.</source>
        <translation>Die Fläche kann mit so wenigen Nachkommastellen nicht an der Datumsgrenze geschnitten werden.</translation>
    </message>
    <message>
        <source>Deliver more decimals.</source>
        <translation>Liefern Sie mehr Nachkommastellen aus.</translation>
    </message>
    <message>
        <source>The surface cannot be kept on the safe side with so few decimals.</source>
        <translation>Die Fläche kann mit so wenigen Nachkommastellen nicht auf der sicheren Seite gehalten werden.</translation>
    </message>
    <message>
        <source>Cancelled.</source>
        <translation>Abgebrochen.</translation>
    </message>
    <message>
        <source>Write it like S 68°05&apos;35&quot; W, N 45-55-20 E, N 45.5 E, 248°05&apos;35&quot; or 248.0931.</source>
        <translation>Schreiben Sie sie wie S 68°05&apos;35&quot; W, N 45-55-20 E, N 45.5 E, 248°05&apos;35&quot; oder 248.0931.</translation>
    </message>
    <message>
        <source>There are %1 minutes, and a degree has 60.</source>
        <translation>Es sind %1 Minuten, und ein Grad hat 60.</translation>
    </message>
    <message>
        <source>There are %1 seconds, and a minute has 60.</source>
        <translation>Es sind %1 Sekunden, und eine Minute hat 60.</translation>
    </message>
    <message>
        <source>After &quot;due&quot; comes north, south, east or west.</source>
        <translation>Nach „due“ kommt north, south, east oder west.</translation>
    </message>
    <message>
        <source>The azimuth %1° is beyond 360°.</source>
        <translation>Das Azimut %1° liegt jenseits von 360°.</translation>
    </message>
    <message>
        <source>After the angle of a quadrant bearing comes E or W.</source>
        <translation>Nach dem Winkel einer Quadrantenrichtung kommt E oder W.</translation>
    </message>
    <message>
        <source>The angle %1° of a quadrant bearing is over 90°: it counts from north or south.</source>
        <translation>Der Winkel %1° einer Quadrantenrichtung ist über 90°: Er zählt von Norden oder Süden.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; cannot be read here.</source>
        <translation>„%1“ kann hier nicht gelesen werden.</translation>
    </message>
    <message>
        <source>This is not a direction.</source>
        <translation>Das ist keine Richtung.</translation>
    </message>
    <message>
        <source>This is not an angle.</source>
        <translation>Das ist kein Winkel.</translation>
    </message>
    <message>
        <source>Write it like 30°15&apos;20&quot;, 30-15-20 or 30.2556.</source>
        <translation>Schreiben Sie ihn wie 30°15&apos;20&quot;, 30-15-20 oder 30.2556.</translation>
    </message>
    <message>
        <source>UTM ends at 84 degrees north and 80 degrees south.</source>
        <translation>UTM endet bei 84 Grad Nord und 80 Grad Süd.</translation>
    </message>
    <message>
        <source>latitude %1</source>
        <translation>Breite %1</translation>
    </message>
    <message>
        <source>Use degrees for this place.</source>
        <translation>Nehmen Sie Grad für diesen Ort.</translation>
    </message>
    <message>
        <source>UTM has zones 1 to 60.</source>
        <translation>UTM hat die Zonen 1 bis 60.</translation>
    </message>
    <message>
        <source>zone %1</source>
        <translation>Zone %1</translation>
    </message>
    <message>
        <source>Correct the zone.</source>
        <translation>Berichtigen Sie die Zone.</translation>
    </message>
    <message>
        <source>coordinate reference system %1</source>
        <translation>Koordinatenreferenzsystem %1</translation>
    </message>
    <message>
        <source>State the right coordinate reference system by hand, such as EPSG:25829.</source>
        <translation>Nennen Sie das richtige Koordinatenreferenzsystem von Hand, etwa EPSG:25829.</translation>
    </message>
    <message>
        <source>The definition is too long to be one of a coordinate reference system.</source>
        <translation>Die Definition ist zu lang für ein Koordinatenreferenzsystem.</translation>
    </message>
    <message>
        <source>The coordinate reference system is not stated.</source>
        <translation>Das Koordinatenreferenzsystem ist nicht angegeben.</translation>
    </message>
    <message>
        <source>This is not a coordinate reference system that is known%1</source>
        <translation>Das ist kein bekanntes Koordinatenreferenzsystem%1</translation>
    </message>
    <message>
        <source>This is not a coordinate reference system.</source>
        <translation>Das ist kein Koordinatenreferenzsystem.</translation>
    </message>
    <message>
        <source>This coordinate reference system has heights only, no places.</source>
        <translation>Dieses Koordinatenreferenzsystem hat nur Höhen, keine Orte.</translation>
    </message>
    <message>
        <source>This coordinate reference system has its origin at the centre of the earth; it has no plane places.</source>
        <translation>Dieses Koordinatenreferenzsystem hat seinen Ursprung im Erdmittelpunkt; es hat keine ebenen Orte.</translation>
    </message>
    <message>
        <source>This is a local coordinate system that is not tied to the earth.</source>
        <translation>Das ist ein örtliches Koordinatensystem ohne Bezug zur Erde.</translation>
    </message>
    <message>
        <source>This kind of coordinate reference system cannot be related to WGS 84.</source>
        <translation>Diese Art von Koordinatenreferenzsystem kann nicht auf WGS 84 bezogen werden.</translation>
    </message>
    <message>
        <source>The projection library has no database of coordinate reference systems.</source>
        <translation>Die Projektionsbibliothek hat keine Datenbank der Koordinatenreferenzsysteme.</translation>
    </message>
    <message>
        <source>proj.db</source>
        <translation>proj.db</translation>
    </message>
    <message>
        <source>Check the installation of PROJ.</source>
        <translation>Prüfen Sie die Installation von PROJ.</translation>
    </message>
    <message>
        <source>There is no known way from this coordinate reference system to WGS 84%1</source>
        <translation>Von diesem Koordinatenreferenzsystem ist kein Weg zu WGS 84 bekannt%1</translation>
    </message>
    <message>
        <source>The way to WGS 84 needs the grid %1, which is not installed.</source>
        <translation>Der Weg zu WGS 84 braucht das Gitter %1, das nicht installiert ist.</translation>
    </message>
    <message>
        <source>There is no such 100 km square in this zone and band.</source>
        <translation>In dieser Zone und diesem Band gibt es kein solches 100-km-Quadrat.</translation>
    </message>
    <message>
        <source>Check the letters of the MGRS place, such as 29T NM 20533 17466.</source>
        <translation>Prüfen Sie die Buchstaben des MGRS-Orts, etwa 29T NM 20533 17466.</translation>
    </message>
    <message>
        <source>There is no latitude band %1.</source>
        <translation>Es gibt kein Breitenband %1.</translation>
    </message>
    <message>
        <source>Bands are C to X, without I and O.</source>
        <translation>Bänder sind C bis X, ohne I und O.</translation>
    </message>
    <message>
        <source>The longitude is not a number.</source>
        <translation>Die Länge ist keine Zahl.</translation>
    </message>
    <message>
        <source>Correct or delete this place.</source>
        <translation>Berichtigen oder löschen Sie diesen Ort.</translation>
    </message>
    <message>
        <source>The latitude is not a number.</source>
        <translation>Die Breite ist keine Zahl.</translation>
    </message>
    <message>
        <source>The latitude is beyond 90 degrees.</source>
        <translation>Die Breite liegt jenseits von 90 Grad.</translation>
    </message>
    <message>
        <source>Correct this place; longitude and latitude may have been exchanged.</source>
        <translation>Berichtigen Sie diesen Ort; Länge und Breite können vertauscht sein.</translation>
    </message>
    <message>
        <source>Write it like 46.208844 -8.733936, 46°12&apos;31.84&quot;N 8°44&apos;02.17&quot;W, 29T 520533 5117466 or 29T NM 20533 17466.</source>
        <translation>Schreiben Sie ihn wie 46.208844 -8.733936, 46°12&apos;31.84&quot;N 8°44&apos;02.17&quot;W, 29T 520533 5117466 oder 29T NM 20533 17466.</translation>
    </message>
    <message>
        <source>This is too long to be a place.</source>
        <translation>Das ist zu lang für einen Ort.</translation>
    </message>
    <message>
        <source>No place is given.</source>
        <translation>Es ist kein Ort angegeben.</translation>
    </message>
    <message>
        <source>An MGRS place has as many digits for the easting as for the northing.</source>
        <translation>Ein MGRS-Ort hat für Ost- und Nordwert gleich viele Ziffern.</translation>
    </message>
    <message>
        <source>An MGRS place has at most five digits for each of easting and northing.</source>
        <translation>Ein MGRS-Ort hat für Ost- und Nordwert höchstens je fünf Ziffern.</translation>
    </message>
    <message>
        <source>The easting of a UTM place lies between 100000 and 900000 m.</source>
        <translation>Der Ostwert eines UTM-Orts liegt zwischen 100000 und 900000 m.</translation>
    </message>
    <message>
        <source>The northing of a UTM place lies between 0 and 10000000 m.</source>
        <translation>Der Nordwert eines UTM-Orts liegt zwischen 0 und 10000000 m.</translation>
    </message>
    <message>
        <source>The northing does not lie in the latitude band %1 (%2 to %3 degrees); for the half of the earth write north or south.</source>
        <translation>Der Nordwert liegt nicht im Breitenband %1 (%2 bis %3 Grad); für die Erdhälfte schreiben Sie north oder south.</translation>
    </message>
    <message>
        <source>The place is not complete.</source>
        <translation>Der Ort ist nicht vollständig.</translation>
    </message>
    <message>
        <source>A place needs a latitude and a longitude.</source>
        <translation>Ein Ort braucht Breite und Länge.</translation>
    </message>
    <message>
        <source>There are more numbers than a latitude and a longitude.</source>
        <translation>Es sind mehr Zahlen als Breite und Länge.</translation>
    </message>
    <message>
        <source>Both parts are longitudes.</source>
        <translation>Beide Teile sind Längen.</translation>
    </message>
    <message>
        <source>Both parts are latitudes.</source>
        <translation>Beide Teile sind Breiten.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; has both a sign and a letter.</source>
        <translation>„%1“ hat ein Vorzeichen und einen Buchstaben.</translation>
    </message>
    <message>
        <source>The latitude &quot;%1&quot; is beyond 90 degrees; without letters, latitude comes first.</source>
        <translation>Die Breite „%1“ liegt jenseits von 90 Grad; ohne Buchstaben kommt die Breite zuerst.</translation>
    </message>
    <message>
        <source>The longitude &quot;%1&quot; is beyond 180 degrees.</source>
        <translation>Die Länge „%1“ liegt jenseits von 180 Grad.</translation>
    </message>
    <message>
        <source>Minutes and seconds lie below 60.</source>
        <translation>Minuten und Sekunden liegen unter 60.</translation>
    </message>
    <message>
        <source>place &quot;%1&quot;</source>
        <translation>Ort „%1“</translation>
    </message>
    <message>
        <source>The tolerance for edges must be more than zero.</source>
        <translation>Die Toleranz für Kanten muss mehr als null sein.</translation>
    </message>
    <message>
        <source>Give the distance by which an edge may differ, such as 0.1 m.</source>
        <translation>Geben Sie an, um wie viel eine Kante abweichen darf, etwa 0.1 m.</translation>
    </message>
    <message>
        <source>The edge would need more than a million places to stay within %1 m.</source>
        <translation>Die Kante brauchte mehr als eine Million Orte, um innerhalb von %1 m zu bleiben.</translation>
    </message>
    <message>
        <source>edge from longitude %1, latitude %2 to longitude %3, latitude %4</source>
        <translation>Kante von Länge %1, Breite %2 nach Länge %3, Breite %4</translation>
    </message>
    <message>
        <source>Give a larger tolerance, or divide the edge.</source>
        <translation>Geben Sie eine größere Toleranz, oder teilen Sie die Kante.</translation>
    </message>
    <message>
        <source>The place is too far away to be computed with in one metric plane.</source>
        <translation>Der Ort ist zu weit weg, um in einer metrischen Ebene gerechnet zu werden.</translation>
    </message>
    <message>
        <source>Check that longitude and latitude have not been exchanged, and that all places belong together.</source>
        <translation>Prüfen Sie, ob Länge und Breite nicht vertauscht sind und alle Orte zusammengehören.</translation>
    </message>
    <message>
        <source>The projection library could not be set up.</source>
        <translation>Die Projektionsbibliothek konnte nicht eingerichtet werden.</translation>
    </message>
    <message>
        <source>%1 m east and %2 m north of the plane&apos;s origin</source>
        <translation>%1 m östlich und %2 m nördlich vom Ursprung der Ebene</translation>
    </message>
    <message>
        <source>The place is too far away to be shown in the map&apos;s plane (%1).</source>
        <translation>Der Ort ist zu weit weg, um in der Ebene der Karte (%1) gezeigt zu werden.</translation>
    </message>
    <message>
        <source>Move the map nearer to it first.</source>
        <translation>Bringen Sie die Karte zuerst näher heran.</translation>
    </message>
    <message>
        <source>The coordinate system cannot be used there.</source>
        <translation>Das Koordinatensystem kann dort nicht benutzt werden.</translation>
    </message>
    <message>
        <source>Draw the map in another coordinate system.</source>
        <translation>Zeichnen Sie die Karte in einem anderen Koordinatensystem.</translation>
    </message>
    <message>
        <source>The EGM96 geoid grid is not installed.</source>
        <translation>Das Geoidgitter EGM96 ist nicht installiert.</translation>
    </message>
    <message>
        <source>egm96_15.gtx</source>
        <translation>egm96_15.gtx</translation>
    </message>
    <message>
        <source>Install the package proj-data; heights above mean sea level cannot be related to others without it.</source>
        <translation>Installieren Sie das Paket proj-data; ohne es können Höhen über dem Meer nicht auf andere bezogen werden.</translation>
    </message>
    <message>
        <source>The EGM96 geoid grid cannot be read.</source>
        <translation>Das Geoidgitter EGM96 kann nicht gelesen werden.</translation>
    </message>
    <message>
        <source>Install the package proj-data afresh.</source>
        <translation>Installieren Sie das Paket proj-data neu.</translation>
    </message>
    <message>
        <source>Write a course like S 68°05&apos;35&quot; W 472.68 ft, or 120 m 45, or curve right, radius 200 ft, arc 104.72 ft.</source>
        <translation>Schreiben Sie eine Seite wie S 68°05&apos;35&quot; W 472.68 ft, oder 120 m 45, oder curve right, radius 200 ft, arc 104.72 ft.</translation>
    </message>
    <message>
        <source>The %1 is not over zero.</source>
        <translation>%1 ist nicht größer als null.</translation>
    </message>
    <message>
        <source>There is no direction.</source>
        <translation>Es steht keine Richtung da.</translation>
    </message>
    <message>
        <source>There is no length after the direction.</source>
        <translation>Nach der Richtung steht keine Länge.</translation>
    </message>
    <message>
        <source>The curve says &quot;%1&quot; twice.</source>
        <translation>Die Kurve sagt zweimal „%1“.</translation>
    </message>
    <message>
        <source>The curve gives its angle twice.</source>
        <translation>Die Kurve gibt ihren Winkel zweimal an.</translation>
    </message>
    <message>
        <source>A curve turns either left or right.</source>
        <translation>Eine Kurve dreht entweder nach links oder nach rechts.</translation>
    </message>
    <message>
        <source>The curve has no radius.</source>
        <translation>Die Kurve hat keinen Radius.</translation>
    </message>
    <message>
        <source>The arc and the angle of the curve do not agree: the arc makes %1°.</source>
        <translation>Bogen und Winkel der Kurve stimmen nicht überein: Der Bogen ergibt %1°.</translation>
    </message>
    <message>
        <source>The chord is longer than twice the radius.</source>
        <translation>Die Sehne ist länger als der doppelte Radius.</translation>
    </message>
    <message>
        <source>The chord does not fit the arc: it would be %1 m long.</source>
        <translation>Die Sehne passt nicht zum Bogen: Sie wäre %1 m lang.</translation>
    </message>
    <message>
        <source>The curve needs its arc, its angle, or its chord.</source>
        <translation>Die Kurve braucht Bogen, Winkel oder Sehne.</translation>
    </message>
    <message>
        <source>The angle of the curve is not between 0° and 360°.</source>
        <translation>Der Winkel der Kurve liegt nicht zwischen 0° und 360°.</translation>
    </message>
    <message>
        <source>The first course is a curve: it needs its chord, for there is no course before it to start along.</source>
        <translation>Die erste Seite ist eine Kurve: Sie braucht ihre Sehne, denn vor ihr steht keine Seite, an der sie beginnt.</translation>
    </message>
    <message>
        <source>There are more than 10,000 courses.</source>
        <translation>Es sind mehr als 10 000 Seiten.</translation>
    </message>
    <message>
        <source>line %1</source>
        <translation>Zeile %1</translation>
    </message>
    <message>
        <source>Draw so long a boundary in parts.</source>
        <translation>Zeichnen Sie eine so lange Grenze in Teilen.</translation>
    </message>
    <message>
        <source>The line is too long for one course.</source>
        <translation>Die Zeile ist zu lang für eine Seite.</translation>
    </message>
    <message>
        <source>line %1, &quot;%2&quot;</source>
        <translation>Zeile %1, „%2“</translation>
    </message>
    <message>
        <source>The %1 could not be worked out (%2).</source>
        <translation>Die Berechnung „%1“ gelang nicht (%2).</translation>
    </message>
    <message>
        <source>Move the corners at that place a little, or redraw the fence there.</source>
        <translation>Verschieben Sie die Ecken an diesem Ort ein wenig, oder zeichnen Sie den Zaun dort neu.</translation>
    </message>
    <message>
        <source>corner %1</source>
        <translation>Ecke %1</translation>
    </message>
    <message>
        <source>Distances cannot be kept there: the coordinate is not a number, or lies beyond 89 degrees of latitude.</source>
        <translation>Abstände können dort nicht eingehalten werden: Die Koordinate ist keine Zahl, oder liegt jenseits von 89 Grad Breite.</translation>
    </message>
    <message>
        <source>Correct that coordinate.</source>
        <translation>Berichtigen Sie diese Koordinate.</translation>
    </message>
    <message>
        <source>The shape reaches over more than half a turn of longitude.</source>
        <translation>Die Form reicht über mehr als einen halben Umlauf der Länge.</translation>
    </message>
    <message>
        <source>longitude %1 to %2</source>
        <translation>Länge %1 bis %2</translation>
    </message>
    <message>
        <source>Correct the coordinate that lies far off.</source>
        <translation>Berichtigen Sie die Koordinate, die weit ab liegt.</translation>
    </message>
    <message>
        <source>The distance %1 m cannot be kept.</source>
        <translation>Der Abstand %1 m kann nicht eingehalten werden.</translation>
    </message>
    <message>
        <source>Give a distance from 0 to 200 km.</source>
        <translation>Geben Sie einen Abstand von 0 bis 200 km an.</translation>
    </message>
    <message>
        <source>The distance reaches to the pole.</source>
        <translation>Der Abstand reicht bis zum Pol.</translation>
    </message>
    <message>
        <source>Give a smaller distance.</source>
        <translation>Geben Sie einen kleineren Abstand an.</translation>
    </message>
    <message>
        <source>A distance of %1 m cannot be kept to a thousandth there.</source>
        <translation>Ein Abstand von %1 m kann dort nicht auf ein Tausendstel eingehalten werden.</translation>
    </message>
    <message>
        <source>Give a distance of a metre or more, or cut the shape into smaller ones.</source>
        <translation>Geben Sie einen Abstand von mindestens einem Meter an, oder zerschneiden Sie die Form.</translation>
    </message>
    <message>
        <source>The surface reaches over more than sixteen turns of longitude.</source>
        <translation>Die Fläche reicht über mehr als sechzehn Umläufe der Länge.</translation>
    </message>
    <message>
        <source>Check the longitudes of its corners.</source>
        <translation>Prüfen Sie die Längen ihrer Ecken.</translation>
    </message>
    <message>
        <source>The surface has too many corners close together to be examined: the %1 was not begun.</source>
        <translation>Die Fläche hat zu viele Ecken dicht beieinander, um untersucht zu werden: „%1“ wurde nicht begonnen.</translation>
    </message>
    <message>
        <source>Simplify the surface first.</source>
        <translation>Vereinfachen Sie zuerst die Fläche.</translation>
    </message>
    <message>
        <source>Coordinates cannot be rounded to %1 decimals.</source>
        <translation>Koordinaten können nicht auf %1 Nachkommastellen gerundet werden.</translation>
    </message>
    <message>
        <source>The outline cannot be kept on its safe side with %1 decimals.</source>
        <translation>Der Umriss kann mit %1 Nachkommastellen nicht auf seiner sicheren Seite gehalten werden.</translation>
    </message>
    <message>
        <source>Nothing is left of the outline with %1 decimals.</source>
        <translation>Vom Umriss bleibt mit %1 Nachkommastellen nichts.</translation>
    </message>
    <message>
        <source>Choose more decimals.</source>
        <translation>Wählen Sie mehr Nachkommastellen.</translation>
    </message>
    <message>
        <source>The outline cannot be drawn with %1 corners.</source>
        <translation>Der Umriss kann nicht mit %1 Ecken gezeichnet werden.</translation>
    </message>
    <message>
        <source>Allow at least %1.</source>
        <translation>Erlauben Sie mindestens %1.</translation>
    </message>
    <message>
        <source>The traverse starts beyond 85 degrees of latitude.</source>
        <translation>Der Polygonzug beginnt jenseits von 85 Grad Breite.</translation>
    </message>
    <message>
        <source>Draw it corner by corner.</source>
        <translation>Zeichnen Sie ihn Ecke für Ecke.</translation>
    </message>
    <message>
        <source>The courses enclose nothing: a fence needs at least three corners.</source>
        <translation>Die Seiten umschließen nichts: Ein Zaun braucht mindestens drei Ecken.</translation>
    </message>
    <message>
        <source>Add the courses that are missing.</source>
        <translation>Fügen Sie die fehlenden Seiten hinzu.</translation>
    </message>
    <message>
        <source>The traverse reaches more than 20 km from its start.</source>
        <translation>Der Polygonzug reicht mehr als 20 km von seinem Anfang weg.</translation>
    </message>
    <message>
        <source>Check the lengths and their units; draw so large an area in parts.</source>
        <translation>Prüfen Sie die Längen und ihre Einheiten; zeichnen Sie eine so große Fläche in Teilen.</translation>
    </message>
    <message>
        <source>The edit does not fit the set as it is now.</source>
        <translation>Die Änderung passt nicht zum jetzigen Stand des Satzes.</translation>
    </message>
    <message>
        <source>Nothing was changed. Undo or redo step by step.</source>
        <translation>Nichts wurde geändert. Gehen Sie Schritt für Schritt zurück oder vor.</translation>
    </message>
    <message>
        <source>There is no such fence in the set.</source>
        <translation>Im Satz gibt es keinen solchen Zaun.</translation>
    </message>
    <message>
        <source>The fence has no identity of its own.</source>
        <translation>Der Zaun hat keine eigene Identität.</translation>
    </message>
    <message>
        <source>There is no such site in the set.</source>
        <translation>Im Satz gibt es kein solches Schutzobjekt.</translation>
    </message>
    <message>
        <source>The site has no identity of its own.</source>
        <translation>Das Schutzobjekt hat keine eigene Identität.</translation>
    </message>
    <message>
        <source>There is no such home in the set.</source>
        <translation>Im Satz gibt es keinen solchen Rückkehrort.</translation>
    </message>
    <message>
        <source>The home has no identity of its own.</source>
        <translation>Der Rückkehrort hat keine eigene Identität.</translation>
    </message>
    <message>
        <source>There is no such source in the set.</source>
        <translation>Im Satz gibt es keine solche Quelle.</translation>
    </message>
    <message>
        <source>The source has no identity of its own.</source>
        <translation>Die Quelle hat keine eigene Identität.</translation>
    </message>
    <message>
        <source>It may have been deleted meanwhile.</source>
        <translation>Es kann inzwischen gelöscht worden sein.</translation>
    </message>
    <message>
        <source>Give it a fresh one.</source>
        <translation>Geben Sie eine neue.</translation>
    </message>
    <message>
        <source>Add %1</source>
        <translation>%1 hinzufügen</translation>
    </message>
    <message>
        <source>Delete %1</source>
        <translation>%1 löschen</translation>
    </message>
    <message>
        <source>Reorder %1</source>
        <translation>%1 umordnen</translation>
    </message>
    <message>
        <source>Change title and notes</source>
        <translation>Titel und Notizen ändern</translation>
    </message>
    <message>
        <source>Reading imagery</source>
        <translation>Luftbild wird gelesen</translation>
    </message>
    <message>
        <source>The part of the raster to read is empty or not finite.</source>
        <translation>Der zu lesende Teil des Rasters ist leer oder nicht endlich.</translation>
    </message>
    <message>
        <source>Give a part with a width and a height.</source>
        <translation>Geben Sie einen Teil mit Breite und Höhe an.</translation>
    </message>
    <message>
        <source>There is no tile %1, %2 of level %3.</source>
        <translation>Es gibt keine Kachel %1, %2 der Stufe %3.</translation>
    </message>
    <message>
        <source>Ask for one of those that cover the raster.</source>
        <translation>Verlangen Sie eine, die das Raster bedeckt.</translation>
    </message>
    <message>
        <source>A picture of %1 x %2 pixels cannot be made.</source>
        <translation>Ein Bild von %1 x %2 Pixeln kann nicht gemacht werden.</translation>
    </message>
    <message>
        <source>Ask for 1 to 16,384 pixels a side.</source>
        <translation>Verlangen Sie 1 bis 16384 Pixel je Seite.</translation>
    </message>
    <message>
        <source>The raster says it has %1 x %2 pixels and no overviews: too many to show.</source>
        <translation>Das Raster sagt, es habe %1 x %2 Pixel und keine Übersichten: zu viele zum Zeigen.</translation>
    </message>
    <message>
        <source>Build overviews for it, or cut out the part that is needed.</source>
        <translation>Bauen Sie Übersichten dafür, oder schneiden Sie den nötigen Teil heraus.</translation>
    </message>
    <message>
        <source>This is no raster that can be read. %1</source>
        <translation>Das ist kein lesbares Raster. %1</translation>
    </message>
    <message>
        <source>Formats that are read: %1.</source>
        <translation>Gelesen werden: %1.</translation>
    </message>
    <message>
        <source>There is no raster in this file.</source>
        <translation>In dieser Datei ist kein Raster.</translation>
    </message>
    <message>
        <source>The raster keeps its overviews in another place: %1.</source>
        <translation>Das Raster bewahrt seine Übersichten anderswo auf: %1.</translation>
    </message>
    <message>
        <source>Delete the .aux.xml file beside it, or put the overviews into the raster.</source>
        <translation>Löschen Sie die Datei .aux.xml daneben, oder legen Sie die Übersichten in das Raster.</translation>
    </message>
    <message>
        <source>The raster says it has %1 bands; up to 256 are read.</source>
        <translation>Das Raster sagt, es habe %1 Kanäle; bis zu 256 werden gelesen.</translation>
    </message>
    <message>
        <source>Extract the bands that are to be shown into a raster of their own.</source>
        <translation>Ziehen Sie die zu zeigenden Kanäle in ein eigenes Raster.</translation>
    </message>
    <message>
        <source>The picture says it has %1 x %2 pixels, too many for its format.</source>
        <translation>Das Bild sagt, es habe %1 x %2 Pixel, zu viele für sein Format.</translation>
    </message>
    <message>
        <source>Convert it to a tiled GeoTIFF.</source>
        <translation>Wandeln Sie es in ein gekacheltes GeoTIFF um.</translation>
    </message>
    <message>
        <source>Band %1 holds complex numbers, which are no picture.</source>
        <translation>Kanal %1 enthält komplexe Zahlen, die kein Bild sind.</translation>
    </message>
    <message>
        <source>Convert the raster to amplitudes first.</source>
        <translation>Wandeln Sie das Raster zuerst in Amplituden um.</translation>
    </message>
    <message>
        <source>The raster says that its blocks have %1 MB; one has to be decoded in one piece.</source>
        <translation>Das Raster sagt, seine Blöcke hätten %1 MB; einer muss am Stück dekodiert werden.</translation>
    </message>
    <message>
        <source>There is no band %1: the raster has %2</source>
        <translation>Es gibt keinen Kanal %1: Das Raster hat %2</translation>
    </message>
    <message>
        <source>one band.</source>
        <translation>einen Kanal.</translation>
    </message>
    <message>
        <source>%1 bands.</source>
        <translation>%1 Kanäle.</translation>
    </message>
    <message>
        <source>Choose the bands to show as red, green and blue from 1 to %1.</source>
        <translation>Wählen Sie die Kanäle für Rot, Grün und Blau von 1 bis %1.</translation>
    </message>
    <message>
        <source>The values to be shown as black and as white are not two numbers in rising order.</source>
        <translation>Die Werte für Schwarz und Weiß sind nicht zwei Zahlen in steigender Folge.</translation>
    </message>
    <message>
        <source>Give a smaller value for black and a larger one for white.</source>
        <translation>Geben Sie einen kleineren Wert für Schwarz und einen größeren für Weiß an.</translation>
    </message>
    <message>
        <source>This pyramid cannot be used with the raster %1. %2</source>
        <translation>Diese Pyramide kann mit dem Raster %1 nicht benutzt werden. %2</translation>
    </message>
    <message>
        <source>Have it built again.</source>
        <translation>Lassen Sie sie neu bauen.</translation>
    </message>
    <message>
        <source>The picture cannot be decoded. %1</source>
        <translation>Das Bild kann nicht dekodiert werden. %1</translation>
    </message>
    <message>
        <source>%1, columns %2 to %3, rows %4 to %5</source>
        <translation>%1, Spalten %2 bis %3, Zeilen %4 bis %5</translation>
    </message>
    <message>
        <source>The file is damaged or cut off there: get it again from its source.</source>
        <translation>Die Datei ist dort beschädigt oder abgeschnitten: Holen Sie sie noch einmal von ihrer Quelle.</translation>
    </message>
    <message>
        <source>Asking the server</source>
        <translation>Der Server wird gefragt</translation>
    </message>
    <message>
        <source>The server&apos;s answer is larger than %1.</source>
        <translation>Die Antwort des Servers ist größer als %1.</translation>
    </message>
    <message>
        <source>Check the address: this is not what was asked for.</source>
        <translation>Prüfen Sie die Adresse: Das ist nicht, wonach gefragt wurde.</translation>
    </message>
    <message>
        <source>There is not enough memory to ask a server.</source>
        <translation>Es ist nicht genug Speicher da, um einen Server zu fragen.</translation>
    </message>
    <message>
        <source>Close other programs.</source>
        <translation>Schließen Sie andere Programme.</translation>
    </message>
    <message>
        <source>The server sends on to another one%1, which is not followed.</source>
        <translation>Der Server verweist an einen anderen%1; dem wird nicht gefolgt.</translation>
    </message>
    <message>
        <source>If that is the right one, name it yourself.</source>
        <translation>Wenn das der richtige ist, nennen Sie ihn selbst.</translation>
    </message>
    <message>
        <source>The server sends on and on.</source>
        <translation>Der Server verweist immer weiter.</translation>
    </message>
    <message>
        <source>Ask whoever runs it for the right address.</source>
        <translation>Fragen Sie, wer ihn betreibt, nach der richtigen Adresse.</translation>
    </message>
    <message>
        <source>it is a link that leads out of the folder</source>
        <translation>es ist eine Verknüpfung, die aus dem Ordner hinausführt</translation>
    </message>
    <message>
        <source>it is no GeoTIFF but %1</source>
        <translation>es ist kein GeoTIFF, sondern %1</translation>
    </message>
    <message>
        <source>it does not say where it lies</source>
        <translation>es sagt nicht, wo es liegt</translation>
    </message>
    <message>
        <source>it is turned or mirrored</source>
        <translation>es ist gedreht oder gespiegelt</translation>
    </message>
    <message>
        <source>There are more than 20,000 GeoTIFFs in this folder.</source>
        <translation>In diesem Ordner sind mehr als 20 000 GeoTIFFs.</translation>
    </message>
    <message>
        <source>Put them into several folders, or make a virtual mosaic (VRT) of them.</source>
        <translation>Legen Sie sie in mehrere Ordner, oder machen Sie ein virtuelles Mosaik (VRT) daraus.</translation>
    </message>
    <message>
        <source>Choose a folder of GeoTIFFs that lie side by side, or of tiles.</source>
        <translation>Wählen Sie einen Ordner mit GeoTIFFs, die nebeneinander liegen, oder mit Kacheln.</translation>
    </message>
    <message>
        <source>The GeoTIFFs of this folder cannot be put together: %1</source>
        <translation>Die GeoTIFFs dieses Ordners können nicht zusammengesetzt werden: %1</translation>
    </message>
    <message>
        <source>Choose a folder of GeoTIFFs that lie side by side.</source>
        <translation>Wählen Sie einen Ordner mit GeoTIFFs, die nebeneinander liegen.</translation>
    </message>
    <message>
        <source>The folder cannot be listed: %1.</source>
        <translation>Der Ordner kann nicht aufgelistet werden: %1.</translation>
    </message>
    <message>
        <source>Check the rights of the folder.</source>
        <translation>Prüfen Sie die Rechte des Ordners.</translation>
    </message>
    <message>
        <source>There is no such file or folder.</source>
        <translation>Es gibt keine solche Datei und keinen solchen Ordner.</translation>
    </message>
    <message>
        <source>Check the name, or look where it was moved to.</source>
        <translation>Prüfen Sie den Namen, oder sehen Sie nach, wohin es verschoben wurde.</translation>
    </message>
    <message>
        <source>This is neither a file nor a folder.</source>
        <translation>Das ist weder eine Datei noch ein Ordner.</translation>
    </message>
    <message>
        <source>Choose a raster file, or a folder of tiles z/x/y or of GeoTIFFs.</source>
        <translation>Wählen Sie eine Rasterdatei, oder einen Ordner mit Kacheln z/x/y oder mit GeoTIFFs.</translation>
    </message>
    <message>
        <source>Placing imagery</source>
        <translation>Luftbild wird eingepasst</translation>
    </message>
    <message>
        <source>Name it as https://tiles.example.org/{z}/{x}/{y}.png, or give the address of the capabilities of a Web Map Tile Service.</source>
        <translation>Nennen Sie sie wie https://tiles.example.org/{z}/{x}/{y}.png, oder geben Sie die Adresse der Capabilities eines Web Map Tile Service an.</translation>
    </message>
    <message>
        <source>This is no address of a server.</source>
        <translation>Das ist keine Adresse eines Servers.</translation>
    </message>
    <message>
        <source>Only http and https addresses are asked for imagery.</source>
        <translation>Nur http- und https-Adressen werden nach Luftbildern gefragt.</translation>
    </message>
    <message>
        <source>The address is longer than 4,096 characters.</source>
        <translation>Die Adresse ist länger als 4096 Zeichen.</translation>
    </message>
    <message>
        <source>The address has a space or another character in it that no address can have.</source>
        <translation>In der Adresse ist ein Leerzeichen oder ein anderes Zeichen, das keine Adresse haben kann.</translation>
    </message>
    <message>
        <source>Write such characters percent-encoded, as %20 for a space.</source>
        <translation>Schreiben Sie solche Zeichen prozentkodiert, wie %20 für ein Leerzeichen.</translation>
    </message>
    <message>
        <source>The address leaves the name of the server open.</source>
        <translation>Die Adresse lässt den Namen des Servers offen.</translation>
    </message>
    <message>
        <source>The address names no server, or not in a way that can be read.</source>
        <translation>Die Adresse nennt keinen Server, oder nicht auf lesbare Weise.</translation>
    </message>
    <message>
        <source>Name one server, such as https://a.tiles.example.org.</source>
        <translation>Nennen Sie einen Server, etwa https://a.tiles.example.org.</translation>
    </message>
    <message>
        <source>The address has %1 in it, which is not known.</source>
        <translation>In der Adresse steht %1, was nicht bekannt ist.</translation>
    </message>
    <message>
        <source>What is known: {z} the zoom, {x} the column, {y} the row from the north, {-y} from the south, {key} the key.</source>
        <translation>Bekannt sind: {z} die Zoomstufe, {x} die Spalte, {y} die Zeile von Norden, {-y} von Süden, {key} der Schlüssel.</translation>
    </message>
    <message>
        <source>The address holds a name or a password, which no document may keep.</source>
        <translation>Die Adresse enthält einen Namen oder ein Passwort, die kein Dokument aufbewahren darf.</translation>
    </message>
    <message>
        <source>Take it out of the address: it is asked for when the server is reached.</source>
        <translation>Nehmen Sie es aus der Adresse: Es wird erfragt, wenn der Server erreicht wird.</translation>
    </message>
    <message>
        <source>The address holds a key, as its parameter &apos;%1&apos;, which no document may keep.</source>
        <translation>Die Adresse enthält einen Schlüssel, als ihren Parameter &apos;%1&apos;, den kein Dokument aufbewahren darf.</translation>
    </message>
    <message>
        <source>Write {key} in its place: the key is asked for when the server is reached.</source>
        <translation>Schreiben Sie {key} an seine Stelle: Der Schlüssel wird erfragt, wenn der Server erreicht wird.</translation>
    </message>
    <message>
        <source>The address does not say where zoom, column and row of a tile stand.</source>
        <translation>Die Adresse sagt nicht, wo Zoomstufe, Spalte und Zeile einer Kachel stehen.</translation>
    </message>
    <message>
        <source>Behind &apos;#&apos; the address says &apos;%1&apos;, which is not known.</source>
        <translation>Hinter &apos;#&apos; sagt die Adresse &apos;%1&apos;, was nicht bekannt ist.</translation>
    </message>
    <message>
        <source>The server names addresses of its tiles that cannot be asked for.</source>
        <translation>Der Server nennt Adressen seiner Kacheln, nach denen nicht gefragt werden kann.</translation>
    </message>
    <message>
        <source>Ask whoever runs it.</source>
        <translation>Fragen Sie, wer ihn betreibt.</translation>
    </message>
    <message>
        <source>There is no address.</source>
        <translation>Es ist keine Adresse da.</translation>
    </message>
    <message>
        <source>The address holds two different keys; one can be set apart.</source>
        <translation>Die Adresse enthält zwei verschiedene Schlüssel; einer kann abgesondert werden.</translation>
    </message>
    <message>
        <source>Ask the server&apos;s owner for an address with one key.</source>
        <translation>Bitten Sie den Eigentümer des Servers um eine Adresse mit einem Schlüssel.</translation>
    </message>
    <message>
        <source>The document names the server %1, which has not been asked anything yet.</source>
        <translation>Das Dokument nennt den Server %1, der noch nichts gefragt wurde.</translation>
    </message>
    <message>
        <source>Connect to it if you know it.</source>
        <translation>Verbinden Sie sich mit ihm, wenn Sie ihn kennen.</translation>
    </message>
    <message>
        <source>The server wants a key.</source>
        <translation>Der Server verlangt einen Schlüssel.</translation>
    </message>
    <message>
        <source>Connect to it and give your key.</source>
        <translation>Verbinden Sie sich mit ihm, und geben Sie Ihren Schlüssel an.</translation>
    </message>
    <message>
        <source>The server wants to know who asks (HTTP status %1).</source>
        <translation>Der Server will wissen, wer fragt (HTTP-Status %1).</translation>
    </message>
    <message>
        <source>The server does not accept the name, password or key (HTTP status %1).</source>
        <translation>Der Server nimmt Name, Passwort oder Schlüssel nicht an (HTTP-Status %1).</translation>
    </message>
    <message>
        <source>Connect to it and give the name and password, or the key, that its owner gave you.</source>
        <translation>Verbinden Sie sich mit ihm, und geben Sie Name und Passwort oder den Schlüssel an, die Sie von seinem Eigentümer haben.</translation>
    </message>
    <message>
        <source>The server answers with HTTP status %1.</source>
        <translation>Der Server antwortet mit dem HTTP-Status %1.</translation>
    </message>
    <message>
        <source>Check the address of its capabilities.</source>
        <translation>Prüfen Sie die Adresse seiner Capabilities.</translation>
    </message>
    <message>
        <source>The server answers with a picture.</source>
        <translation>Der Server antwortet mit einem Bild.</translation>
    </message>
    <message>
        <source>Write {z}, {x} and {y} where zoom, column and row of the tile stand in the address.</source>
        <translation>Schreiben Sie {z}, {x} und {y}, wo Zoomstufe, Spalte und Zeile der Kachel in der Adresse stehen.</translation>
    </message>
    <message>
        <source>Check the address, or ask whoever runs the server.</source>
        <translation>Prüfen Sie die Adresse, oder fragen Sie, wer den Server betreibt.</translation>
    </message>
    <message>
        <source>The server answers with a page for people and not with a picture.</source>
        <translation>Der Server antwortet mit einer Seite für Menschen und nicht mit einem Bild.</translation>
    </message>
    <message>
        <source>The server&apos;s answer is neither a PNG nor a JPEG%1</source>
        <translation>Die Antwort des Servers ist weder PNG noch JPEG%1</translation>
    </message>
    <message>
        <source> but &apos;%1&apos;.</source>
        <translation> sondern &apos;%1&apos;.</translation>
    </message>
    <message>
        <source>Check the address; some servers answer so when they want a key.</source>
        <translation>Prüfen Sie die Adresse; manche Server antworten so, wenn sie einen Schlüssel verlangen.</translation>
    </message>
    <message>
        <source>Addresses of servers are not opened here.</source>
        <translation>Adressen von Servern werden hier nicht geöffnet.</translation>
    </message>
    <message>
        <source>Choose a file.</source>
        <translation>Wählen Sie eine Datei.</translation>
    </message>
    <message>
        <source>Try again; if it stays so, ask whoever runs the server.</source>
        <translation>Versuchen Sie es noch einmal; bleibt es dabei, fragen Sie, wer den Server betreibt.</translation>
    </message>
    <message>
        <source>Reading tiles</source>
        <translation>Kacheln werden gelesen</translation>
    </message>
    <message>
        <source>The server&apos;s answer is neither a PNG nor a JPEG.</source>
        <translation>Die Antwort des Servers ist weder PNG noch JPEG.</translation>
    </message>
    <message>
        <source>The tile cannot be decoded: %1.</source>
        <translation>Die Kachel kann nicht dekodiert werden: %1.</translation>
    </message>
    <message>
        <source>The tile has %1 x %2 pixels; tiles of %3 x %4 were expected.</source>
        <translation>Die Kachel hat %1 x %2 Pixel; erwartet waren Kacheln von %3 x %4.</translation>
    </message>
    <message>
        <source>it is cut off or damaged</source>
        <translation>sie ist abgeschnitten oder beschädigt</translation>
    </message>
    <message>
        <source>The folder of tiles cannot be listed: %1.</source>
        <translation>Der Ordner mit Kacheln kann nicht aufgelistet werden: %1.</translation>
    </message>
    <message>
        <source>There are no tiles in this folder.</source>
        <translation>In diesem Ordner sind keine Kacheln.</translation>
    </message>
    <message>
        <source>A folder of tiles holds PNG or JPEG files named zoom/column/row, such as 17/66012/43218.png; a folder that makes one picture holds GeoTIFFs.</source>
        <translation>Ein Ordner mit Kacheln enthält PNG- oder JPEG-Dateien mit Namen Zoomstufe/Spalte/Zeile, etwa 17/66012/43218.png; ein Ordner, der ein Bild ergibt, enthält GeoTIFFs.</translation>
    </message>
    <message>
        <source>There are more than 4 million tiles at zoom %1.</source>
        <translation>Bei Zoomstufe %1 sind mehr als 4 Millionen Kacheln.</translation>
    </message>
    <message>
        <source>Use an MBTiles file or a GeoTIFF instead.</source>
        <translation>Nehmen Sie stattdessen eine MBTiles-Datei oder ein GeoTIFF.</translation>
    </message>
    <message>
        <source>The tile has %1 x %2 pixels.</source>
        <translation>Die Kachel hat %1 x %2 Pixel.</translation>
    </message>
    <message>
        <source>Tiles are squares of 64 to 1024 pixels.</source>
        <translation>Kacheln sind Quadrate von 64 bis 1024 Pixeln.</translation>
    </message>
    <message>
        <source>The tiles cover too much ground at zoom %1.</source>
        <translation>Die Kacheln bedecken bei Zoomstufe %1 zu viel Boden.</translation>
    </message>
    <message>
        <source>Remove the deepest zoom, or the tiles that lie far away.</source>
        <translation>Entfernen Sie die tiefste Zoomstufe, oder die Kacheln, die weit ab liegen.</translation>
    </message>
    <message>
        <source>The tile has %1 x %2 pixels; the first had %3.</source>
        <translation>Die Kachel hat %1 x %2 Pixel; die erste hatte %3.</translation>
    </message>
    <message>
        <source>All tiles of a folder have one size.</source>
        <translation>Alle Kacheln eines Ordners haben eine Größe.</translation>
    </message>
    <message>
        <source>The address does not say which layer.</source>
        <translation>Die Adresse sagt nicht, welche Ebene.</translation>
    </message>
    <message>
        <source>The server has no layer &apos;%1&apos;.</source>
        <translation>Der Server hat keine Ebene &apos;%1&apos;.</translation>
    </message>
    <message>
        <source>Add the imagery anew and choose one of the layers that the server has now.</source>
        <translation>Fügen Sie das Luftbild neu hinzu, und wählen Sie eine der Ebenen, die der Server jetzt hat.</translation>
    </message>
    <message>
        <source>The server offers &apos;%1&apos; neither as PNG nor as JPEG.</source>
        <translation>Der Server bietet &apos;%1&apos; weder als PNG noch als JPEG an.</translation>
    </message>
    <message>
        <source>Choose another layer.</source>
        <translation>Wählen Sie eine andere Ebene.</translation>
    </message>
    <message>
        <source>Behind &apos;#&apos; the address says tiles of &apos;%1&apos; pixels.</source>
        <translation>Hinter &apos;#&apos; sagt die Adresse Kacheln von &apos;%1&apos; Pixeln.</translation>
    </message>
    <message>
        <source>Say 256 or 512.</source>
        <translation>Sagen Sie 256 oder 512.</translation>
    </message>
    <message>
        <source>Behind &apos;#&apos; the address says the zooms &apos;%1&apos;.</source>
        <translation>Hinter &apos;#&apos; sagt die Adresse die Zoomstufen &apos;%1&apos;.</translation>
    </message>
    <message>
        <source>Say the first and the deepest, such as zoom=0-19; the deepest that is read is 22.</source>
        <translation>Sagen Sie die erste und die tiefste, etwa zoom=0-19; die tiefste, die gelesen wird, ist 22.</translation>
    </message>
    <message>
        <source>Behind &apos;#&apos; the address says the box &apos;%1&apos;.</source>
        <translation>Hinter &apos;#&apos; sagt die Adresse das Rechteck &apos;%1&apos;.</translation>
    </message>
    <message>
        <source>Say west, south, east and north in degrees, such as box=-7.6,46.1,-7.4,46.3.</source>
        <translation>Sagen Sie West, Süd, Ost und Nord in Grad, etwa box=-7.6,46.1,-7.4,46.3.</translation>
    </message>
    <message>
        <source>The address describes no tiles.</source>
        <translation>Die Adresse beschreibt keine Kacheln.</translation>
    </message>
    <message>
        <source>Check what it says behind &apos;#&apos;.</source>
        <translation>Prüfen Sie, was sie hinter &apos;#&apos; sagt.</translation>
    </message>
    <message>
        <source>The server does not offer &apos;%1&apos; in the grid &apos;%2&apos;.</source>
        <translation>Der Server bietet &apos;%1&apos; nicht im Gitter &apos;%2&apos; an.</translation>
    </message>
    <message>
        <source>Add the imagery anew and choose one of those that it has now.</source>
        <translation>Fügen Sie das Luftbild neu hinzu, und wählen Sie eines, das er jetzt hat.</translation>
    </message>
    <message>
        <source>The grid &apos;%1&apos; cannot be shown: %2.</source>
        <translation>Das Gitter &apos;%1&apos; kann nicht gezeigt werden: %2.</translation>
    </message>
    <message>
        <source>Choose a layer in another grid, such as GoogleMapsCompatible.</source>
        <translation>Wählen Sie eine Ebene in einem anderen Gitter, etwa GoogleMapsCompatible.</translation>
    </message>
    <message>
        <source>The server does not say how its tiles are asked for.</source>
        <translation>Der Server sagt nicht, wie nach seinen Kacheln gefragt wird.</translation>
    </message>
    <message>
        <source>The tiles come from another server, %1, which was not named.</source>
        <translation>Die Kacheln kommen von einem anderen Server, %1, der nicht genannt wurde.</translation>
    </message>
    <message>
        <source>Add the imagery anew, and agree to it if that is right.</source>
        <translation>Fügen Sie das Luftbild neu hinzu, und stimmen Sie zu, wenn das richtig ist.</translation>
    </message>
    <message>
        <source>The server has no tiles of &apos;%1&apos; in the grid &apos;%2&apos;.</source>
        <translation>Der Server hat keine Kacheln von &apos;%1&apos; im Gitter &apos;%2&apos;.</translation>
    </message>
    <message>
        <source>Choose another layer or grid.</source>
        <translation>Wählen Sie eine andere Ebene oder ein anderes Gitter.</translation>
    </message>
    <message>
        <source>Make the mosaic of plain images that lie in its own folder or below it.</source>
        <translation>Machen Sie das Mosaik aus einfachen Bildern, die in seinem Ordner oder darunter liegen.</translation>
    </message>
    <message>
        <source>The virtual mosaic contains itself.</source>
        <translation>Das virtuelle Mosaik enthält sich selbst.</translation>
    </message>
    <message>
        <source>Virtual mosaics are nested more than %1 deep.</source>
        <translation>Virtuelle Mosaike sind mehr als %1 tief verschachtelt.</translation>
    </message>
    <message>
        <source>The virtual mosaic is larger than 32 MB.</source>
        <translation>Das virtuelle Mosaik ist größer als 32 MB.</translation>
    </message>
    <message>
        <source>The virtual mosaic is not well-formed XML.</source>
        <translation>Das virtuelle Mosaik ist kein wohlgeformtes XML.</translation>
    </message>
    <message>
        <source>The virtual mosaic has elements nested more than 64 deep.</source>
        <translation>Das virtuelle Mosaik hat mehr als 64 tief verschachtelte Elemente.</translation>
    </message>
    <message>
        <source>The virtual mosaic has a part of the class %1, which does more than put images side by side.</source>
        <translation>Das virtuelle Mosaik hat einen Teil der Klasse %1, der mehr tut, als Bilder nebeneinander zu legen.</translation>
    </message>
    <message>
        <source>The virtual mosaic has the element %1, which is not read.</source>
        <translation>Das virtuelle Mosaik hat das Element %1, das nicht gelesen wird.</translation>
    </message>
    <message>
        <source>The virtual mosaic has more than 100,000 sources.</source>
        <translation>Das virtuelle Mosaik hat mehr als 100 000 Quellen.</translation>
    </message>
    <message>
        <source>The source &apos;%1&apos; of the virtual mosaic is not a file on this machine.</source>
        <translation>Die Quelle &apos;%1&apos; des virtuellen Mosaiks ist keine Datei auf diesem Rechner.</translation>
    </message>
    <message>
        <source>The source &apos;%1&apos; lies outside the folder of the virtual mosaic.</source>
        <translation>Die Quelle &apos;%1&apos; liegt außerhalb des Ordners des virtuellen Mosaiks.</translation>
    </message>
    <message>
        <source>The source &apos;%1&apos; of the virtual mosaic is no GeoTIFF, JPEG 2000, PNG or JPEG.</source>
        <translation>Die Quelle &apos;%1&apos; des virtuellen Mosaiks ist weder GeoTIFF noch JPEG 2000, PNG oder JPEG.</translation>
    </message>
    <message>
        <source>The server answers: %1.</source>
        <translation>Der Server antwortet: %1.</translation>
    </message>
    <message>
        <source>This is no list of what a Web Map Tile Service offers, but &apos;%1&apos;.</source>
        <translation>Das ist keine Liste dessen, was ein Web Map Tile Service anbietet, sondern &apos;%1&apos;.</translation>
    </message>
    <message>
        <source>This is no list of what a Web Map Tile Service offers.</source>
        <translation>Das ist keine Liste dessen, was ein Web Map Tile Service anbietet.</translation>
    </message>
    <message>
        <source>The server does not say which layers it has.</source>
        <translation>Der Server sagt nicht, welche Ebenen er hat.</translation>
    </message>
    <message>
        <source>Ask whoever runs the server for the address of its capabilities.</source>
        <translation>Fragen Sie, wer den Server betreibt, nach der Adresse seiner Capabilities.</translation>
    </message>
    <message>
        <source>The server&apos;s answer has elements nested more than 32 deep.</source>
        <translation>Die Antwort des Servers hat mehr als 32 tief verschachtelte Elemente.</translation>
    </message>
    <message>
        <source>The server&apos;s answer has more than 2 million parts.</source>
        <translation>Die Antwort des Servers hat mehr als 2 Millionen Teile.</translation>
    </message>
    <message>
        <source>The server has more than 1,000 grids of tiles.</source>
        <translation>Der Server hat mehr als 1000 Kachelgitter.</translation>
    </message>
    <message>
        <source>The grid %1 has more than 64 resolutions.</source>
        <translation>Das Gitter %1 hat mehr als 64 Auflösungen.</translation>
    </message>
    <message>
        <source>The server has more than 20,000 layers.</source>
        <translation>Der Server hat mehr als 20 000 Ebenen.</translation>
    </message>
    <message>
        <source>The server answered with a page for people and not with a list of its layers.</source>
        <translation>Der Server antwortete mit einer Seite für Menschen und nicht mit einer Liste seiner Ebenen.</translation>
    </message>
    <message>
        <source>The server&apos;s answer declares a document type or entities, which are not read.</source>
        <translation>Die Antwort des Servers deklariert einen Dokumenttyp oder Entities, die nicht gelesen werden.</translation>
    </message>
    <message>
        <source>The server&apos;s answer is no XML.</source>
        <translation>Die Antwort des Servers ist kein XML.</translation>
    </message>
    <message>
        <source>The server&apos;s answer is not well-formed XML.</source>
        <translation>Die Antwort des Servers ist kein wohlgeformtes XML.</translation>
    </message>
    <message>
        <source>Nothing can be written here: %1.</source>
        <translation>Hier kann nichts geschrieben werden: %1.</translation>
    </message>
    <message>
        <source>Choose a folder that may be written to.</source>
        <translation>Wählen Sie einen Ordner, in den geschrieben werden darf.</translation>
    </message>
    <message>
        <source>The pyramid cannot be built: %1.%2</source>
        <translation>Die Pyramide kann nicht gebaut werden: %1.%2</translation>
    </message>
    <message>
        <source>the reason is not known</source>
        <translation>der Grund ist nicht bekannt</translation>
    </message>
    <message>
        <source>Make room on the disk, or have the pyramid kept in another folder.</source>
        <translation>Schaffen Sie Platz auf dem Datenträger, oder lassen Sie die Pyramide in einem anderen Ordner aufbewahren.</translation>
    </message>
    <message>
        <source>The pyramid cannot be written: %1.%2</source>
        <translation>Die Pyramide kann nicht geschrieben werden: %1.%2</translation>
    </message>
    <message>
        <source>Make room on the disk.</source>
        <translation>Schaffen Sie Platz auf dem Datenträger.</translation>
    </message>
    <message>
        <source>This raster has its coarser pictures already.</source>
        <translation>Dieses Raster hat seine gröberen Bilder schon.</translation>
    </message>
    <message>
        <source>Use it as it is.</source>
        <translation>Benutzen Sie es, wie es ist.</translation>
    </message>
    <message>
        <source>Building the pyramid</source>
        <translation>Die Pyramide wird gebaut</translation>
    </message>
    <message>
        <source>The mask of the raster cannot be read.</source>
        <translation>Die Maske des Rasters kann nicht gelesen werden.</translation>
    </message>
    <message>
        <source>Give it an alpha band instead of a mask.</source>
        <translation>Geben Sie ihm statt der Maske einen Alphakanal.</translation>
    </message>
    <message>
        <source>The folder for the pyramid cannot be made: %1.</source>
        <translation>Der Ordner für die Pyramide kann nicht angelegt werden: %1.</translation>
    </message>
    <message>
        <source>The pyramid cannot be given its name: %1.</source>
        <translation>Die Pyramide kann ihren Namen nicht bekommen: %1.</translation>
    </message>
    <message>
        <source>Look what is in its place.</source>
        <translation>Sehen Sie nach, was an ihrer Stelle ist.</translation>
    </message>
    <message>
        <source>This is the address of tiles and not of capabilities.</source>
        <translation>Das ist die Adresse von Kacheln und nicht von Capabilities.</translation>
    </message>
    <message>
        <source>It can be added as it is; there are no layers to choose from.</source>
        <translation>Sie kann hinzugefügt werden, wie sie ist; es sind keine Ebenen zu wählen.</translation>
    </message>
    <message>
        <source>The raster does not say where on the earth it lies.</source>
        <translation>Das Raster sagt nicht, wo auf der Erde es liegt.</translation>
    </message>
    <message>
        <source>Give its coordinate reference system.</source>
        <translation>Geben Sie sein Koordinatenreferenzsystem an.</translation>
    </message>
    <message>
        <source>Put a world file beside it.</source>
        <translation>Legen Sie eine World-Datei daneben.</translation>
    </message>
    <message>
        <source>The part of the map to draw is empty.</source>
        <translation>Der zu zeichnende Teil der Karte ist leer.</translation>
    </message>
    <message>
        <source>The kept layer cannot be opened: %1.</source>
        <translation>Die aufbewahrte Ebene kann nicht geöffnet werden: %1.</translation>
    </message>
    <message>
        <source>Read the layer again.</source>
        <translation>Lesen Sie die Ebene neu.</translation>
    </message>
    <message>
        <source>The kept layer is cut off.</source>
        <translation>Die aufbewahrte Ebene ist abgeschnitten.</translation>
    </message>
    <message>
        <source>The kept layer contradicts itself.</source>
        <translation>Die aufbewahrte Ebene widerspricht sich.</translation>
    </message>
    <message>
        <source>This is no layer that this version keeps.</source>
        <translation>Das ist keine Ebene, die diese Version aufbewahrt.</translation>
    </message>
    <message>
        <source>The kept layer is damaged.</source>
        <translation>Die aufbewahrte Ebene ist beschädigt.</translation>
    </message>
    <message>
        <source>The kept layer was made of another state of its file.</source>
        <translation>Die aufbewahrte Ebene wurde aus einem anderen Stand ihrer Datei gemacht.</translation>
    </message>
    <message>
        <source>The layer has more %1 than can be kept.</source>
        <translation>Die Ebene hat mehr %1, als aufbewahrt werden können.</translation>
    </message>
    <message>
        <source>The layer cannot be kept: %1.</source>
        <translation>Die Ebene kann nicht aufbewahrt werden: %1.</translation>
    </message>
    <message>
        <source>Make room on the disk, or see to the rights of the folder.</source>
        <translation>Schaffen Sie Platz auf dem Datenträger, oder sehen Sie nach den Rechten des Ordners.</translation>
    </message>
    <message>
        <source>The file is not there.</source>
        <translation>Die Datei ist nicht da.</translation>
    </message>
    <message>
        <source>Check its name, or locate it anew.</source>
        <translation>Prüfen Sie ihren Namen, oder suchen Sie sie neu.</translation>
    </message>
    <message>
        <source>The layer is larger than %1 MiB, which is as much as is kept of one.</source>
        <translation>Die Ebene ist größer als %1 MiB; mehr wird von einer nicht aufbewahrt.</translation>
    </message>
    <message>
        <source>Connect to read it.</source>
        <translation>Verbinden Sie, um sie zu lesen.</translation>
    </message>
    <message>
        <source>Writing values</source>
        <translation>Werte werden geschrieben</translation>
    </message>
    <message>
        <source>The document is damaged: %1</source>
        <translation>Das Dokument ist beschädigt: %1</translation>
    </message>
    <message>
        <source>Take an older copy of it. If another program has written into its tables, undo that there.</source>
        <translation>Nehmen Sie eine ältere Kopie davon. Hat ein anderes Programm in seine Tabellen geschrieben, machen Sie das dort rückgängig.</translation>
    </message>
    <message>
        <source>The file is a GeoPackage, but not a document of Fencewright.</source>
        <translation>Die Datei ist ein GeoPackage, aber kein Dokument von Fencewright.</translation>
    </message>
    <message>
        <source>Import it as fences, sites or a reference layer instead.</source>
        <translation>Importieren Sie sie stattdessen als Zäune, Schutzobjekte oder Referenzebene.</translation>
    </message>
    <message>
        <source>The document was written by a newer Fencewright (layout %1; this one reads up to %2).</source>
        <translation>Das Dokument wurde von einem neueren Fencewright geschrieben (Aufbau %1; dieses liest bis %2).</translation>
    </message>
    <message>
        <source>Open it with that, or bring this program up to date.</source>
        <translation>Öffnen Sie es damit, oder bringen Sie dieses Programm auf den neuesten Stand.</translation>
    </message>
    <message>
        <source>Another program left unfinished work beside the file.</source>
        <translation>Ein anderes Programm ließ unfertige Arbeit neben der Datei liegen.</translation>
    </message>
    <message>
        <source>Open and close the file in that program, or remove this leftover, or save under another name.</source>
        <translation>Öffnen und schließen Sie die Datei in jenem Programm, oder entfernen Sie den Rest, oder speichern Sie unter einem anderen Namen.</translation>
    </message>
    <message>
        <source>Take an older copy of it, if there is one.</source>
        <translation>Nehmen Sie eine ältere Kopie davon, falls es eine gibt.</translation>
    </message>
    <message>
        <source>The file does not exist.</source>
        <translation>Die Datei gibt es nicht.</translation>
    </message>
    <message>
        <source>Check its name; it may have been moved or removed.</source>
        <translation>Prüfen Sie ihren Namen; sie kann verschoben oder entfernt worden sein.</translation>
    </message>
    <message>
        <source>The file cannot be reached (%1).</source>
        <translation>Die Datei ist nicht zu erreichen (%1).</translation>
    </message>
    <message>
        <source>Check the rights of its folder.</source>
        <translation>Prüfen Sie die Rechte ihres Ordners.</translation>
    </message>
    <message>
        <source>This is a folder, not a document.</source>
        <translation>Das ist ein Ordner, kein Dokument.</translation>
    </message>
    <message>
        <source>This is a device, not a document.</source>
        <translation>Das ist ein Gerät, kein Dokument.</translation>
    </message>
    <message>
        <source>The file may not be read.</source>
        <translation>Die Datei darf nicht gelesen werden.</translation>
    </message>
    <message>
        <source>Change the rights of the file.</source>
        <translation>Ändern Sie die Rechte der Datei.</translation>
    </message>
    <message>
        <source>The file is a database, but not a GeoPackage.</source>
        <translation>Die Datei ist eine Datenbank, aber kein GeoPackage.</translation>
    </message>
    <message>
        <source>Choose another file.</source>
        <translation>Wählen Sie eine andere Datei.</translation>
    </message>
    <message>
        <source>The file is damaged: it is cut off after %1 of %2 bytes.</source>
        <translation>Die Datei ist beschädigt: Sie ist nach %1 von %2 Bytes abgeschnitten.</translation>
    </message>
    <message>
        <source>The file is damaged (%1).</source>
        <translation>Die Datei ist beschädigt (%1).</translation>
    </message>
    <message>
        <source>The document did not read back as it was written; it was not saved.</source>
        <translation>Das Dokument las sich nicht so zurück, wie es geschrieben wurde; es wurde nicht gespeichert.</translation>
    </message>
    <message>
        <source>Save it elsewhere, and check the disk.</source>
        <translation>Speichern Sie es anderswo, und prüfen Sie den Datenträger.</translation>
    </message>
    <message>
        <source>The folder does not exist.</source>
        <translation>Den Ordner gibt es nicht.</translation>
    </message>
    <message>
        <source>Make the folder, or choose another place.</source>
        <translation>Legen Sie den Ordner an, oder wählen Sie einen anderen Ort.</translation>
    </message>
    <message>
        <source>The folder cannot be written to.</source>
        <translation>In den Ordner kann nicht geschrieben werden.</translation>
    </message>
    <message>
        <source>Choose another folder, or change its rights.</source>
        <translation>Wählen Sie einen anderen Ordner, oder ändern Sie seine Rechte.</translation>
    </message>
    <message>
        <source>There is no space left for the file.</source>
        <translation>Für die Datei ist kein Platz mehr.</translation>
    </message>
    <message>
        <source>Make space on the disk, or choose another place.</source>
        <translation>Schaffen Sie Platz auf dem Datenträger, oder wählen Sie einen anderen Ort.</translation>
    </message>
    <message>
        <source>The name of the file is too long.</source>
        <translation>Der Name der Datei ist zu lang.</translation>
    </message>
    <message>
        <source>The file cannot be written (%1).</source>
        <translation>Die Datei kann nicht geschrieben werden (%1).</translation>
    </message>
    <message>
        <source>Check the disk, or choose another place.</source>
        <translation>Prüfen Sie den Datenträger, oder wählen Sie einen anderen Ort.</translation>
    </message>
    <message>
        <source>Choose a file to save to.</source>
        <translation>Wählen Sie eine Datei zum Speichern.</translation>
    </message>
    <message>
        <source>This is the name of a folder.</source>
        <translation>Das ist der Name eines Ordners.</translation>
    </message>
    <message>
        <source>This is the name of a device, not of a file.</source>
        <translation>Das ist der Name eines Geräts, nicht einer Datei.</translation>
    </message>
    <message>
        <source>The file is read-only.</source>
        <translation>Die Datei ist schreibgeschützt.</translation>
    </message>
    <message>
        <source>Save under another name, or change the rights of the file.</source>
        <translation>Speichern Sie unter einem anderen Namen, oder ändern Sie die Rechte der Datei.</translation>
    </message>
    <message>
        <source>Saving</source>
        <translation>Es wird gespeichert</translation>
    </message>
    <message>
        <source>Reading back</source>
        <translation>Es wird zurückgelesen</translation>
    </message>
    <message>
        <source>Replacing the old file</source>
        <translation>Die alte Datei wird ersetzt</translation>
    </message>
    <message>
        <source>The key of a recovery copy has letters, digits and hyphens only.</source>
        <translation>Der Schlüssel einer Wiederherstellungskopie hat nur Buchstaben, Ziffern und Bindestriche.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is not a length: %2</source>
        <translation>„%1“ ist keine Länge: %2</translation>
    </message>
    <message>
        <source>Type a number and a unit, such as 402.336 m, 1320 ft or 1/4 mi.</source>
        <translation>Tippen Sie eine Zahl und eine Einheit, etwa 402.336 m, 1320 ft oder 1/4 mi.</translation>
    </message>
    <message>
        <source>nothing was typed.</source>
        <translation>Es wurde nichts getippt.</translation>
    </message>
    <message>
        <source>it does not begin with a number.</source>
        <translation>Es beginnt nicht mit einer Zahl.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is not a number.</source>
        <translation>„%1“ ist keine Zahl.</translation>
    </message>
    <message>
        <source>the number before the fraction cannot be read.</source>
        <translation>Die Zahl vor dem Bruch kann nicht gelesen werden.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is not a fraction.</source>
        <translation>„%1“ ist kein Bruch.</translation>
    </message>
    <message>
        <source>the fraction is over zero.</source>
        <translation>Der Bruch geht durch null.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is not a unit of length known here.</source>
        <translation>„%1“ ist keine Längeneinheit, die hier bekannt ist.</translation>
    </message>
    <message>
        <source>it is too large.</source>
        <translation>Es ist zu groß.</translation>
    </message>
    <message>
        <source>en</source>
        <translation>de</translation>
    </message>
    <message>
        <source>1 network link is not followed: what lies behind is not read.</source>
        <translation>1 Netzverweis wird nicht gefolgt: Was dahinter liegt, wird nicht gelesen.</translation>
    </message>
    <message>
        <source>%1 network links are not followed: what lies behind is not read.</source>
        <translation>%1 Netzverweisen wird nicht gefolgt: Was dahinter liegt, wird nicht gelesen.</translation>
    </message>
    <message>
        <source>1 picture is laid over the map: not read.</source>
        <translation>1 Bild liegt über der Karte: nicht gelesen.</translation>
    </message>
    <message>
        <source>%1 pictures are laid over the map: not read.</source>
        <translation>%1 Bilder liegen über der Karte: nicht gelesen.</translation>
    </message>
    <message>
        <source>1 track is not read; because of it, of each placemark only name, description and place are.</source>
        <translation>1 Spur wird nicht gelesen; ihretwegen sind von jeder Placemark nur Name, Beschreibung und Ort gelesen.</translation>
    </message>
    <message>
        <source>%1 tracks are not read; because of them, of each placemark only name, description and place are.</source>
        <translation>%1 Spuren werden nicht gelesen; ihretwegen sind von jeder Placemark nur Name, Beschreibung und Ort gelesen.</translation>
    </message>
    <message>
        <source>its comma can stand before thousands or before decimals. Leave it out, or type a point before decimals.</source>
        <translation>Das Komma kann vor Tausendern oder vor Nachkommastellen stehen. Lassen Sie es weg, oder tippen Sie vor Nachkommastellen einen Punkt.</translation>
    </message>
    <message>
        <source>The radius of the circle is zero.</source>
        <translation>Der Radius des Kreises ist null.</translation>
    </message>
    <message>
        <source>Click a place on its rim, or type a radius such as &quot;150 ft&quot;.</source>
        <translation>Klicken Sie einen Ort auf seinem Rand an, oder tippen Sie einen Radius wie „150 ft“ ein.</translation>
    </message>
    <message>
        <source>%1 has no such corner any more.</source>
        <translation>%1 hat diese Ecke nicht mehr.</translation>
    </message>
    <message>
        <source>Choose the corner again.</source>
        <translation>Wählen Sie die Ecke neu.</translation>
    </message>
    <message>
        <source>%1 needs its last %2 corners.</source>
        <translation>%1 braucht seine letzten %2 Ecken.</translation>
    </message>
    <message>
        <source>To delete the whole fence, click in it first, then press Delete.</source>
        <translation>Um den ganzen Zaun zu löschen, klicken Sie erst hinein und drücken dann Entf.</translation>
    </message>
    <message>
        <source>A corridor needs a line of at least two places.</source>
        <translation>Ein Korridor braucht eine Linie von mindestens zwei Orten.</translation>
    </message>
    <message>
        <source>Click the next place, or press Escape.</source>
        <translation>Klicken Sie den nächsten Ort an, oder drücken Sie Esc.</translation>
    </message>
    <message>
        <source>The corridor has no width.</source>
        <translation>Der Korridor hat keine Breite.</translation>
    </message>
    <message>
        <source>Click beside its line, or type how far it reaches to each side, such as &quot;15 m&quot;.</source>
        <translation>Klicken Sie neben seine Linie, oder tippen Sie ein, wie weit er nach jeder Seite reicht, etwa „15 m“.</translation>
    </message>
    <message>
        <source>A click alone draws nothing.</source>
        <translation>Ein Klick allein zeichnet nichts.</translation>
    </message>
    <message>
        <source>Hold the button down and draw around the area in one sweep.</source>
        <translation>Halten Sie die Taste gedrückt, und umfahren Sie die Fläche in einem Zug.</translation>
    </message>
    <message>
        <source>The sweep was too short to enclose anything.</source>
        <translation>Der Zug war zu kurz, um etwas einzuschließen.</translation>
    </message>
    <message>
        <source>Draw around the area in one sweep.</source>
        <translation>Umfahren Sie die Fläche in einem Zug.</translation>
    </message>
    <message>
        <source>Draw around one area, without crossing the line.</source>
        <translation>Umfahren Sie eine Fläche, ohne die Linie zu kreuzen.</translation>
    </message>
    <message>
        <source>There is no drawn polygon here to make a hole in.</source>
        <translation>Hier ist kein gezeichnetes Polygon, in das ein Loch kommen kann.</translation>
    </message>
    <message>
        <source>Click inside a fence that was drawn corner by corner.</source>
        <translation>Klicken Sie in einen Zaun, der Ecke für Ecke gezeichnet wurde.</translation>
    </message>
    <message>
        <source>A hole needs at least three corners.</source>
        <translation>Ein Loch braucht mindestens drei Ecken.</translation>
    </message>
    <message>
        <source>Click the next corner, or press Escape.</source>
        <translation>Klicken Sie die nächste Ecke an, oder drücken Sie Esc.</translation>
    </message>
    <message>
        <source>The fence that the hole was for is gone.</source>
        <translation>Der Zaun, für den das Loch war, ist nicht mehr da.</translation>
    </message>
    <message>
        <source>Press Escape and begin again.</source>
        <translation>Drücken Sie Esc, und beginnen Sie neu.</translation>
    </message>
    <message>
        <source>The hole does not lie inside %1, or overlaps another.</source>
        <translation>Das Loch liegt nicht in %1, oder es überlappt ein anderes.</translation>
    </message>
    <message>
        <source>Take the corner outside back with Backspace, or press Escape and begin again.</source>
        <translation>Nehmen Sie die Ecke außerhalb mit der Rücktaste zurück, oder drücken Sie Esc und beginnen neu.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is not a number of degrees between 0 and 360.</source>
        <translation>„%1“ ist keine Gradzahl zwischen 0 und 360.</translation>
    </message>
    <message>
        <source>Type degrees, such as &quot;&lt;45&quot; for a bearing or &quot;90 right&quot; for a turn.</source>
        <translation>Tippen Sie Grade ein, etwa „&lt;45“ für eine Richtung oder „90 right“ für eine Wendung.</translation>
    </message>
    <message>
        <source>The bearing %1° is not between 0 and 360.</source>
        <translation>Die Richtung %1° liegt nicht zwischen 0 und 360.</translation>
    </message>
    <message>
        <source>Type a distance and a bearing clockwise from north, such as &quot;120 m 45&quot;.</source>
        <translation>Tippen Sie eine Länge und eine Richtung im Uhrzeigersinn von Nord ein, etwa „120 m 45“.</translation>
    </message>
    <message>
        <source>There is no last leg to turn from.</source>
        <translation>Es gibt keine letzte Strecke, von der aus gewendet werden kann.</translation>
    </message>
    <message>
        <source>Type a bearing clockwise from north, such as &quot;120 m 45&quot; or &quot;&lt;45&quot;.</source>
        <translation>Tippen Sie eine Richtung im Uhrzeigersinn von Nord ein, etwa „120 m 45“ oder „&lt;45“.</translation>
    </message>
    <message>
        <source>The distance to the next corner is zero.</source>
        <translation>Die Länge bis zur nächsten Ecke ist null.</translation>
    </message>
    <message>
        <source>Type a distance and a bearing, such as &quot;120 m 45&quot;.</source>
        <translation>Tippen Sie eine Länge und eine Richtung ein, etwa „120 m 45“.</translation>
    </message>
    <message>
        <source>No parcel is picked.</source>
        <translation>Kein Flurstück ist gewählt.</translation>
    </message>
    <message>
        <source>Click the parcels first, then press Enter.</source>
        <translation>Klicken Sie erst die Flurstücke an, und drücken Sie dann die Eingabetaste.</translation>
    </message>
    <message>
        <source>There is no parcel here.</source>
        <translation>Hier ist kein Flurstück.</translation>
    </message>
    <message>
        <source>Add a layer with parcels under Sources, or click inside a parcel.</source>
        <translation>Fügen Sie unter Quellen eine Ebene mit Flurstücken hinzu, oder klicken Sie in ein Flurstück.</translation>
    </message>
    <message>
        <source>A fence needs at least three corners.</source>
        <translation>Ein Zaun braucht mindestens drei Ecken.</translation>
    </message>
    <message>
        <source>A side of the rectangle is zero.</source>
        <translation>Eine Seite des Rechtecks ist null.</translation>
    </message>
    <message>
        <source>Type both sides, such as &quot;120 m x 60 m 45&quot;.</source>
        <translation>Tippen Sie beide Seiten ein, etwa „120 m x 60 m 45“.</translation>
    </message>
    <message>
        <source>The rectangle has no depth.</source>
        <translation>Das Rechteck hat keine Tiefe.</translation>
    </message>
    <message>
        <source>Click beside its first side, or type how deep it is, such as &quot;60 m&quot;.</source>
        <translation>Klicken Sie neben seine erste Seite, oder tippen Sie ein, wie tief es ist, etwa „60 m“.</translation>
    </message>
    <message>
        <source>The three places lie on one line: no circle goes through them.</source>
        <translation>Die drei Orte liegen auf einer Linie: kein Kreis geht durch sie.</translation>
    </message>
    <message>
        <source>Click a place beside that line.</source>
        <translation>Klicken Sie einen Ort neben dieser Linie an.</translation>
    </message>
    <message>
        <source>The setback has no distance yet.</source>
        <translation>Der Abstand hat noch keine Länge.</translation>
    </message>
    <message>
        <source>Type it, such as &quot;1/4 mi&quot; or &quot;402.336 m&quot;, then press Enter.</source>
        <translation>Tippen Sie sie ein, etwa „1/4 mi“ oder „402.336 m“, und drücken Sie die Eingabetaste.</translation>
    </message>
    <message>
        <source>A setback of zero protects nothing.</source>
        <translation>Ein Abstand von null schützt nichts.</translation>
    </message>
    <message>
        <source>Type a distance such as &quot;1/4 mi&quot; or &quot;402.336 m&quot;.</source>
        <translation>Tippen Sie eine Länge wie „1/4 mi“ oder „402.336 m“ ein.</translation>
    </message>
    <message>
        <source>Copy fences, sites or homes, or GeoJSON text, and paste again.</source>
        <translation>Kopieren Sie Zäune, Schutzobjekte oder Rückkehrorte, oder GeoJSON-Text, und fügen Sie neu ein.</translation>
    </message>
    <message>
        <source>The text nests deeper than any GeoJSON does.</source>
        <translation>Der Text ist tiefer verschachtelt, als GeoJSON es je ist.</translation>
    </message>
    <message>
        <source>The text holds more than %1 features.</source>
        <translation>Der Text enthält mehr als %1 Objekte.</translation>
    </message>
    <message>
        <source>Save it as a file and import that.</source>
        <translation>Speichern Sie ihn als Datei, und importieren Sie diese.</translation>
    </message>
    <message>
        <source>What is on the clipboard is neither a copy from here nor GeoJSON text.</source>
        <translation>Was in der Zwischenablage liegt, ist weder eine Kopie von hier noch GeoJSON-Text.</translation>
    </message>
    <message>
        <source>The text is JSON, but not GeoJSON.</source>
        <translation>Der Text ist JSON, aber kein GeoJSON.</translation>
    </message>
    <message>
        <source>the feature</source>
        <translation>das Objekt</translation>
    </message>
    <message>
        <source>the geometry</source>
        <translation>die Geometrie</translation>
    </message>
    <message>
        <source>A member &quot;type&quot; is missing, so it is not GeoJSON.</source>
        <translation>Der Eintrag „type“ fehlt, es ist also kein GeoJSON.</translation>
    </message>
    <message>
        <source>The text names a coordinate reference system of its own.</source>
        <translation>Der Text nennt ein eigenes Koordinatenreferenzsystem.</translation>
    </message>
    <message>
        <source>Save it as a file and import that: there its coordinates are converted.</source>
        <translation>Speichern Sie ihn als Datei, und importieren Sie diese: dabei werden die Koordinaten umgerechnet.</translation>
    </message>
    <message>
        <source>It is not a Feature.</source>
        <translation>Es ist kein Feature.</translation>
    </message>
    <message>
        <source>It was copied by a newer version of the program.</source>
        <translation>Es wurde von einer neueren Fassung des Programms kopiert.</translation>
    </message>
    <message>
        <source>Copy it there as a delivered file.</source>
        <translation>Übergeben Sie es dort als ausgelieferte Datei.</translation>
    </message>
    <message>
        <source>It is no kind of thing that is known.</source>
        <translation>Diese Art von Ding ist nicht bekannt.</translation>
    </message>
    <message>
        <source>Its member %1 %2.</source>
        <translation>Sein Eintrag %1 %2.</translation>
    </message>
    <message>
        <source>It has a coordinate that is no place on the earth.</source>
        <translation>Es hat eine Koordinate, die kein Ort auf der Erde ist.</translation>
    </message>
    <message>
        <source>The text holds more than %1 corners.</source>
        <translation>Der Text enthält mehr als %1 Ecken.</translation>
    </message>
    <message>
        <source>It has a length that is not a number.</source>
        <translation>Es hat eine Länge, die keine Zahl ist.</translation>
    </message>
    <message>
        <source>Its coordinates are not lists of the depth that its type asks for.</source>
        <translation>Seine Koordinaten sind keine Listen der Tiefe, die sein Typ verlangt.</translation>
    </message>
    <message>
        <source>It has a position that is not a longitude and a latitude.</source>
        <translation>Es hat eine Position, die nicht aus Länge und Breite besteht.</translation>
    </message>
    <message>
        <source>It has a ring of fewer than three corners.</source>
        <translation>Es hat einen Ring mit weniger als drei Ecken.</translation>
    </message>
    <message>
        <source>It has a polygon without a ring.</source>
        <translation>Es hat ein Polygon ohne Ring.</translation>
    </message>
    <message>
        <source>It has a line of fewer than two places.</source>
        <translation>Es hat eine Linie mit weniger als zwei Orten.</translation>
    </message>
    <message>
        <source>Its geometry is not one of GeoJSON.</source>
        <translation>Seine Geometrie ist keine von GeoJSON.</translation>
    </message>
    <message>
        <source>Its geometry has no coordinates.</source>
        <translation>Seine Geometrie hat keine Koordinaten.</translation>
    </message>
    <message>
        <source>The text holds more than %1 areas and places.</source>
        <translation>Der Text enthält mehr als %1 Flächen und Orte.</translation>
    </message>
    <message>
        <source>Nothing is selected that could be copied.</source>
        <translation>Es ist nichts gewählt, was kopiert werden könnte.</translation>
    </message>
    <message>
        <source>Choose fences, sites or homes first.</source>
        <translation>Wählen Sie erst Zäune, Schutzobjekte oder Rückkehrorte.</translation>
    </message>
    <message>
        <source>This is more than the clipboard should carry.</source>
        <translation>Das ist mehr, als die Zwischenablage tragen soll.</translation>
    </message>
    <message>
        <source>Save the document, or deliver it as a file.</source>
        <translation>Speichern Sie das Dokument, oder liefern Sie es als Datei aus.</translation>
    </message>
    <message>
        <source>The text on the clipboard is longer than %1 MB.</source>
        <translation>Der Text in der Zwischenablage ist länger als %1 MB.</translation>
    </message>
    <message>
        <source>The text holds no area, line or place.</source>
        <translation>Der Text enthält keine Fläche, keine Linie und keinen Ort.</translation>
    </message>
    <message>
        <source>The site that this setback follows is neither in the text nor in this document.</source>
        <translation>Das Schutzobjekt, dem dieser Abstand folgt, ist weder im Text noch in diesem Dokument.</translation>
    </message>
    <message>
        <source>Copy the site along with it.</source>
        <translation>Kopieren Sie das Schutzobjekt mit.</translation>
    </message>
    <message>
        <source>Paste one thing</source>
        <translation>Ein Ding einfügen</translation>
    </message>
    <message>
        <source>Paste %1 things</source>
        <translation>%1 Dinge einfügen</translation>
    </message>
    <message>
        <source>%1 has no such edge any more.</source>
        <translation>%1 hat diese Kante nicht mehr.</translation>
    </message>
    <message>
        <source>Choose the edge again.</source>
        <translation>Wählen Sie die Kante noch einmal.</translation>
    </message>
    <message>
        <source>A circle needs a radius over zero.</source>
        <translation>Ein Kreis braucht einen Radius über null.</translation>
    </message>
    <message>
        <source>Type a length, such as &quot;150 m&quot;.</source>
        <translation>Tippen Sie eine Länge, etwa „150 m“.</translation>
    </message>
    <message>
        <source>That does not say how far and in which direction.</source>
        <translation>Das sagt nicht, wie weit und in welche Richtung.</translation>
    </message>
    <message>
        <source>An edge without length has no side to be moved to.</source>
        <translation>Eine Kante ohne Länge hat keine Seite, zu der sie rücken könnte.</translation>
    </message>
    <message>
        <source>Move one of its corners.</source>
        <translation>Verschieben Sie eine ihrer Ecken.</translation>
    </message>
    <message>
        <source>An edge is chosen, and an edge cannot be deleted.</source>
        <translation>Eine Kante ist gewählt, und eine Kante kann nicht gelöscht werden.</translation>
    </message>
    <message>
        <source>Choose a corner and press Delete, or press Esc, and then Delete for the fence.</source>
        <translation>Wählen Sie eine Ecke und drücken Sie Entf, oder drücken Sie Esc und dann Entf für den Zaun.</translation>
    </message>
    <message>
        <source>Nothing is chosen.</source>
        <translation>Nichts ist gewählt.</translation>
    </message>
    <message>
        <source>Click what is to be turned or scaled.</source>
        <translation>Klicken Sie an, was gedreht oder skaliert werden soll.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is no turn, factor or way.</source>
        <translation>„%1“ ist keine Drehung, kein Faktor und kein Weg.</translation>
    </message>
    <message>
        <source>Type &quot;30 right&quot;, &quot;15 left&quot;, &quot;x 1.5&quot;, &quot;150 %&quot;, or a distance and a bearing, such as &quot;20 m 45&quot;.</source>
        <translation>Tippen Sie „30 rechts“, „15 links“, „x 1.5“, „150 %“, oder Entfernung und Richtung, etwa „20 m 45“.</translation>
    </message>
    <message>
        <source>What is chosen reaches farther than 1000 km.</source>
        <translation>Das Gewählte reicht weiter als 1000 km.</translation>
    </message>
    <message>
        <source>Move, turn or scale less of it at once.</source>
        <translation>Verschieben, drehen oder skalieren Sie weniger davon auf einmal.</translation>
    </message>
    <message>
        <source>%1 would come too near a pole.</source>
        <translation>%1 käme zu nahe an einen Pol.</translation>
    </message>
    <message>
        <source>Keep it within 89 degrees of latitude.</source>
        <translation>Bleiben Sie innerhalb von 89 Grad Breite.</translation>
    </message>
    <message>
        <source>A shape cannot be scaled by %1.</source>
        <translation>Eine Form kann nicht um %1 skaliert werden.</translation>
    </message>
    <message>
        <source>Type a factor over zero, such as &quot;x 1.5&quot; or &quot;150 %&quot;.</source>
        <translation>Tippen Sie einen Faktor über null, etwa „x 1.5“ oder „150 %“.</translation>
    </message>
    <message>
        <source>%1 follows its site, and cannot be moved, turned or scaled alone.</source>
        <translation>%1 folgt seinem Schutzobjekt und kann nicht allein verschoben, gedreht oder skaliert werden.</translation>
    </message>
    <message>
        <source>Choose its site as well, or the site alone.</source>
        <translation>Wählen Sie auch das Schutzobjekt, oder nur dieses.</translation>
    </message>
    <message>
        <source>What is chosen is not in the set.</source>
        <translation>Das Gewählte ist nicht im Zaunsatz.</translation>
    </message>
    <message>
        <source>Move %1</source>
        <translation>%1 verschieben</translation>
    </message>
    <message>
        <source>Turn %1</source>
        <translation>%1 drehen</translation>
    </message>
    <message>
        <source>Scale %1</source>
        <translation>%1 skalieren</translation>
    </message>
    <message>
        <source>Turn and scale %1</source>
        <translation>%1 drehen und skalieren</translation>
    </message>
    <message>
        <source>Move %1 things</source>
        <translation>%1 Dinge verschieben</translation>
    </message>
    <message>
        <source>Turn %1 things</source>
        <translation>%1 Dinge drehen</translation>
    </message>
    <message>
        <source>Scale %1 things</source>
        <translation>%1 Dinge skalieren</translation>
    </message>
    <message>
        <source>Turn and scale %1 things</source>
        <translation>%1 Dinge drehen und skalieren</translation>
    </message>
    <message>
        <source>That leads past a pole.</source>
        <translation>Das führt über einen Pol hinaus.</translation>
    </message>
    <message>
        <source>Choose what is to be placed.</source>
        <translation>Wählen Sie, was gesetzt werden soll.</translation>
    </message>
    <message>
        <source>%1 is locked.</source>
        <translation>%1 ist fixiert.</translation>
    </message>
    <message>
        <source>Unlock it first: Edit, Unlock, or its form.</source>
        <translation>Lösen Sie es zuerst: Bearbeiten, Lösen, oder in seinem Formular.</translation>
    </message>
    <message>
        <source>A corridor cannot reach %1 to a side.</source>
        <translation>Ein Korridor kann nicht %1 nach einer Seite reichen.</translation>
    </message>
    <message>
        <source>Type zero or more, such as &quot;10 m left 25 m right&quot;.</source>
        <translation>Tippen Sie null oder mehr, etwa „10 m links 25 m rechts“.</translation>
    </message>
    <message>
        <source>One side is given twice.</source>
        <translation>Eine Seite ist zweimal angegeben.</translation>
    </message>
    <message>
        <source>Type each side once, such as &quot;10 m left 25 m right&quot;.</source>
        <translation>Tippen Sie jede Seite einmal, etwa „10 m links 25 m rechts“.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; has no side.</source>
        <translation>„%1“ hat keine Seite.</translation>
    </message>
    <message>
        <source>The last place lies on no boundary that could be followed.</source>
        <translation>Der letzte Ort liegt auf keiner Grenze, der gefolgt werden könnte.</translation>
    </message>
    <message>
        <source>Set a place on an edge of a fence or parcel, then follow it.</source>
        <translation>Setzen Sie einen Ort auf die Kante eines Zauns oder Flurstücks und folgen Sie ihr dann.</translation>
    </message>
    <message>
        <source>The boundary is not that long.</source>
        <translation>So lang ist die Grenze nicht.</translation>
    </message>
    <message>
        <source>Type a shorter length, or take the other way round.</source>
        <translation>Tippen Sie eine kürzere Strecke, oder nehmen Sie die andere Richtung.</translation>
    </message>
    <message>
        <source>That place does not lie on the boundary that is followed.</source>
        <translation>Dieser Ort liegt nicht auf der Grenze, der gefolgt wird.</translation>
    </message>
    <message>
        <source>Type how far along it, such as &quot;120 m&quot;, or press Backspace to go straight.</source>
        <translation>Tippen Sie, wie weit an ihr entlang, etwa „120 m“, oder gehen Sie mit der Rücktaste gerade.</translation>
    </message>
    <message>
        <source>The boundary that is followed gives the direction.</source>
        <translation>Die Grenze, der gefolgt wird, gibt die Richtung vor.</translation>
    </message>
    <message>
        <source>row %1 of the pasted text</source>
        <translation>Zeile %1 des eingefügten Texts</translation>
    </message>
    <message>
        <source>This row has more than %1 cells.</source>
        <translation>Diese Zeile hat mehr als %1 Zellen.</translation>
    </message>
    <message>
        <source>Copy the columns of the coordinates alone.</source>
        <translation>Kopieren Sie nur die Spalten der Koordinaten.</translation>
    </message>
    <message>
        <source>This row has more than one place.</source>
        <translation>Diese Zeile hat mehr als einen Ort.</translation>
    </message>
    <message>
        <source>Copy one column of coordinates.</source>
        <translation>Kopieren Sie nur eine Spalte mit Koordinaten.</translation>
    </message>
    <message>
        <source>The latitude %1 is beyond 90 degrees.</source>
        <translation>Die Breite %1 liegt über 90 Grad.</translation>
    </message>
    <message>
        <source>Choose the other order, or correct the number.</source>
        <translation>Wählen Sie die andere Reihenfolge, oder berichtigen Sie die Zahl.</translation>
    </message>
    <message>
        <source>The longitude %1 is beyond 360 degrees.</source>
        <translation>Die Länge %1 liegt über 360 Grad.</translation>
    </message>
    <message>
        <source>Degrees are needed here; for metres of a grid write the zone in front, such as 29T 520533 5117466.</source>
        <translation>Hier sind Grade nötig; vor Meter eines Gitters schreiben Sie die Zone, etwa 29T 520533 5117466.</translation>
    </message>
    <message>
        <source>This row has fewer cells than the heading.</source>
        <translation>Diese Zeile hat weniger Zellen als die Überschrift.</translation>
    </message>
    <message>
        <source>Copy whole rows.</source>
        <translation>Kopieren Sie ganze Zeilen.</translation>
    </message>
    <message>
        <source>This row has %1 numbers, and nothing says which two are the place.</source>
        <translation>Diese Zeile hat %1 Zahlen, und nichts sagt, welche zwei der Ort sind.</translation>
    </message>
    <message>
        <source>Copy the two columns alone, or with a heading such as longitude and latitude.</source>
        <translation>Kopieren Sie nur die zwei Spalten, oder mit einer Überschrift wie Länge und Breite.</translation>
    </message>
    <message>
        <source>There is no place in this row.</source>
        <translation>In dieser Zeile steht kein Ort.</translation>
    </message>
    <message>
        <source>A row is, for example, 46.208844° N 8.733936° W, or two numbers in two columns.</source>
        <translation>Eine Zeile ist zum Beispiel 46.208844° N 8.733936° W, oder zwei Zahlen in zwei Spalten.</translation>
    </message>
    <message>
        <source>These are more than %1 rows.</source>
        <translation>Das sind mehr als %1 Zeilen.</translation>
    </message>
    <message>
        <source>Import them as a file instead.</source>
        <translation>Importieren Sie sie stattdessen als Datei.</translation>
    </message>
    <message>
        <source>This row has the latitude in another column than row %1.</source>
        <translation>Diese Zeile hat die Breite in einer anderen Spalte als Zeile %1.</translation>
    </message>
    <message>
        <source>Give all rows the same order.</source>
        <translation>Geben Sie allen Zeilen dieselbe Reihenfolge.</translation>
    </message>
    <message>
        <source>There are no rows of coordinates on the clipboard.</source>
        <translation>In der Zwischenablage sind keine Zeilen mit Koordinaten.</translation>
    </message>
    <message>
        <source>Copy them in a spreadsheet or as text, one place a row.</source>
        <translation>Kopieren Sie sie aus einer Tabelle oder als Text, ein Ort je Zeile.</translation>
    </message>
    <message>
        <source>Two bare numbers do not say which is the latitude.</source>
        <translation>Zwei bloße Zahlen sagen nicht, welche die Breite ist.</translation>
    </message>
    <message>
        <source>Say which order they have.</source>
        <translation>Sagen Sie, welche Reihenfolge sie haben.</translation>
    </message>
    <message>
        <source>A bearing is needed here.</source>
        <translation>Hier ist eine Richtung nötig.</translation>
    </message>
    <message>
        <source>Type degrees clockwise from north, such as 45.5, or N 45°30&apos; E.</source>
        <translation>Tippen Sie Grade von Nord im Uhrzeigersinn, etwa 45.5, oder N 45°30&apos; E.</translation>
    </message>
    <message>
        <source>Type a length such as 120 m, or delete the corner.</source>
        <translation>Tippen Sie eine Länge wie 120 m, oder löschen Sie die Ecke.</translation>
    </message>
    <message>
        <source>Leave some, or delete the whole fence.</source>
        <translation>Lassen Sie einige stehen, oder löschen Sie den ganzen Zaun.</translation>
    </message>
    <message>
        <source>The fence encloses nothing.</source>
        <translation>Der Zaun umschließt nichts.</translation>
    </message>
    <message>
        <source>Correct its shape, or leave it out.</source>
        <translation>Berichtigen Sie seine Form, oder lassen Sie ihn aus.</translation>
    </message>
    <message>
        <source>The copy of %1 is a drawn polygon: parcels lie where they lie.</source>
        <translation>Die Kopie von %1 ist ein gezeichnetes Polygon: Flurstücke liegen, wo sie liegen.</translation>
    </message>
    <message>
        <source>The copy of %1 lies where that lies, for it follows the same site.</source>
        <translation>Die Kopie von %1 liegt an derselben Stelle, denn sie folgt demselben Schutzobjekt.</translation>
    </message>
    <message>
        <source>The distance of the copy is not more than zero.</source>
        <translation>Die Entfernung der Kopie ist nicht größer als null.</translation>
    </message>
    <message>
        <source>Type a distance, such as 50 m.</source>
        <translation>Geben Sie eine Entfernung ein, etwa 50 m.</translation>
    </message>
    <message>
        <source>Nothing is left that far inside %1.</source>
        <translation>So weit im Inneren von %1 bleibt nichts übrig.</translation>
    </message>
    <message>
        <source>Type a shorter distance.</source>
        <translation>Geben Sie eine kürzere Entfernung ein.</translation>
    </message>
    <message>
        <source>The copy does not follow the site.</source>
        <translation>Die Kopie folgt dem Schutzobjekt nicht.</translation>
    </message>
    <message>
        <source>Copy %1 at a distance</source>
        <translation>%1 im Abstand kopieren</translation>
    </message>
    <message>
        <source>Nothing is chosen to duplicate.</source>
        <translation>Es ist nichts gewählt, das verdoppelt werden kann.</translation>
    </message>
    <message>
        <source>Duplicate %1</source>
        <translation>%1 verdoppeln</translation>
    </message>
    <message>
        <source>Duplicate %1 things</source>
        <translation>%1 Dinge verdoppeln</translation>
    </message>
    <message>
        <source>This needs two fences or more.</source>
        <translation>Dazu braucht es mindestens zwei Zäune.</translation>
    </message>
    <message>
        <source>Choose the others as well: click them with Shift held.</source>
        <translation>Wählen Sie die anderen dazu: Klicken Sie sie mit gedrückter Umschalttaste an.</translation>
    </message>
    <message>
        <source>Keep-ins and keep-outs cannot become one fence.</source>
        <translation>Einsatzflächen und Sperrflächen können nicht ein Zaun werden.</translation>
    </message>
    <message>
        <source>Choose fences of one kind, or take one out of another.</source>
        <translation>Wählen Sie Zäune einer Art, oder nehmen Sie einen aus dem anderen heraus.</translation>
    </message>
    <message>
        <source>It applies at other heights or times than %1, and one fence cannot say both.</source>
        <translation>Er gilt in anderen Höhen oder zu anderen Zeiten als %1, und ein Zaun kann nicht beides sagen.</translation>
    </message>
    <message>
        <source>Give both the same heights, times and switch first.</source>
        <translation>Geben Sie beiden zuerst dieselben Höhen, Zeiten und denselben Schalter.</translation>
    </message>
    <message>
        <source>%1 follows its site no more.</source>
        <translation>%1 folgt seinem Schutzobjekt nicht mehr.</translation>
    </message>
    <message>
        <source>The result lies in %1 parts: each is a fence.</source>
        <translation>Das Ergebnis liegt in %1 Teilen: Jeder ist ein Zaun.</translation>
    </message>
    <message>
        <source>Unite %1 and %2</source>
        <translation>%1 und %2 vereinigen</translation>
    </message>
    <message>
        <source>Unite %1 and %2 other fences</source>
        <translation>%1 und %2 andere Zäune vereinigen</translation>
    </message>
    <message>
        <source>The fences share nothing.</source>
        <translation>Die Zäune haben nichts gemeinsam.</translation>
    </message>
    <message>
        <source>Choose fences that overlap.</source>
        <translation>Wählen Sie Zäune, die sich überlappen.</translation>
    </message>
    <message>
        <source>Keep what %1 and %2 share</source>
        <translation>Behalten, was %1 und %2 gemeinsam haben</translation>
    </message>
    <message>
        <source>Keep what %1 and %2 other fences share</source>
        <translation>Behalten, was %1 und %2 andere Zäune gemeinsam haben</translation>
    </message>
    <message>
        <source>There is nothing to take out of %1.</source>
        <translation>Es gibt nichts, das aus %1 herausgenommen werden kann.</translation>
    </message>
    <message>
        <source>Nothing would be left of %1.</source>
        <translation>Von %1 bliebe nichts übrig.</translation>
    </message>
    <message>
        <source>Delete it instead, if that is meant.</source>
        <translation>Löschen Sie ihn stattdessen, wenn das gemeint ist.</translation>
    </message>
    <message>
        <source>The other fences do not overlap %1.</source>
        <translation>Die anderen Zäune überlappen %1 nicht.</translation>
    </message>
    <message>
        <source>Take %1 out of %2</source>
        <translation>%1 aus %2 herausnehmen</translation>
    </message>
    <message>
        <source>Take %1 fences out of %2</source>
        <translation>%1 Zäune aus %2 herausnehmen</translation>
    </message>
    <message>
        <source>Cut %1</source>
        <translation>%1 zerschneiden</translation>
    </message>
    <message>
        <source>Cut %1 fences</source>
        <translation>%1 Zäune zerschneiden</translation>
    </message>
    <message>
        <source>The line cuts no fence in two.</source>
        <translation>Die Linie zerschneidet keinen Zaun.</translation>
    </message>
    <message>
        <source>Let it cross from one side of a fence to the other.</source>
        <translation>Führen Sie sie von einer Seite eines Zauns zur anderen.</translation>
    </message>
    <message>
        <source>Fill the holes of %1</source>
        <translation>Löcher von %1 füllen</translation>
    </message>
    <message>
        <source>Fill the holes of %1 fences</source>
        <translation>Löcher von %1 Zäunen füllen</translation>
    </message>
    <message>
        <source>What lay in the holes of %1 is open to flight now.</source>
        <translation>Was in den Löchern von %1 lag, darf jetzt beflogen werden.</translation>
    </message>
    <message>
        <source>There is no hole to fill.</source>
        <translation>Es gibt kein Loch, das gefüllt werden kann.</translation>
    </message>
    <message>
        <source>Choose a fence that has holes.</source>
        <translation>Wählen Sie einen Zaun, der Löcher hat.</translation>
    </message>
    <message>
        <source>Make a polygon of %1</source>
        <translation>%1 zum Polygon machen</translation>
    </message>
    <message>
        <source>Make polygons of %1 fences</source>
        <translation>%1 Zäune zu Polygonen machen</translation>
    </message>
    <message>
        <source>It is a drawn polygon already.</source>
        <translation>Er ist schon ein gezeichnetes Polygon.</translation>
    </message>
    <message>
        <source>Choose a circle, a corridor, a setback or a fence of parcels.</source>
        <translation>Wählen Sie einen Kreis, einen Korridor, eine Abstandsfläche oder einen Zaun aus Flurstücken.</translation>
    </message>
    <message>
        <source>The line ends inside.</source>
        <translation>Die Linie endet im Inneren.</translation>
    </message>
    <message>
        <source>Let it begin and end outside of what it is to cut.</source>
        <translation>Lassen Sie sie außerhalb dessen beginnen und enden, was sie zerschneiden soll.</translation>
    </message>
    <message>
        <source>The line to cut along needs two different places.</source>
        <translation>Die Schnittlinie braucht zwei verschiedene Orte.</translation>
    </message>
    <message>
        <source>Set the next place of it.</source>
        <translation>Setzen Sie ihren nächsten Ort.</translation>
    </message>
    <message>
        <source>The surface cannot be cut there so that nothing of it is lost or added.</source>
        <translation>Dort kann die Fläche nicht so zerschnitten werden, dass nichts verloren geht oder dazukommt.</translation>
    </message>
    <message>
        <source>Move the line a little, away from the corners and edges beside it.</source>
        <translation>Verschieben Sie die Linie ein wenig, fort von den Ecken und Kanten daneben.</translation>
    </message>
    <message>
        <source>The line cuts nothing off.</source>
        <translation>Die Linie schneidet nichts ab.</translation>
    </message>
    <message>
        <source>Let it cross from one side to the other.</source>
        <translation>Führen Sie sie von einer Seite zur anderen.</translation>
    </message>
    <message>
        <source>The result cannot be rounded so that nothing of it is lost.</source>
        <translation>Das Ergebnis kann nicht so gerundet werden, dass nichts davon verloren geht.</translation>
    </message>
    <message>
        <source>The result cannot be rounded so that nothing is added to it.</source>
        <translation>Das Ergebnis kann nicht so gerundet werden, dass nichts dazukommt.</translation>
    </message>
    <message>
        <source>Move a corner where the boundaries run close to one another, and try again.</source>
        <translation>Verschieben Sie eine Ecke, wo die Grenzen dicht beieinander verlaufen, und versuchen Sie es noch einmal.</translation>
    </message>
    <message>
        <source>A cut needs a line of two places or more.</source>
        <translation>Ein Schnitt braucht eine Linie aus mindestens zwei Orten.</translation>
    </message>
    <message>
        <source>Taking the margin off</source>
        <translation>Sicherheitsabstand wird abgezogen</translation>
    </message>
    <message>
        <source>Clear area is empty</source>
        <translation>Freies Gebiet ist leer</translation>
    </message>
    <message>
        <source>Wherever the aircraft flies, it may come to a stop outside the operating area.</source>
        <translation>Wo auch immer das Fluggerät fliegt, es kann außerhalb des Betriebsgebiets zum Stehen kommen.</translation>
    </message>
    <message>
        <source>Make the operating area larger, or fly slower and state that in the margin.</source>
        <translation>Vergrößern Sie das Betriebsgebiet, oder fliegen Sie langsamer und geben Sie das im Sicherheitsabstand an.</translation>
    </message>
    <message>
        <source>The clear area cannot be computed, and so counts as empty. %1</source>
        <translation>Das freie Gebiet kann nicht berechnet werden und gilt daher als leer. %1</translation>
    </message>
    <message>
        <source>The margin of %1 leaves nothing of the operating area on %2.</source>
        <translation>Der Sicherheitsabstand von %1 lässt am %2 nichts vom Betriebsgebiet übrig.</translation>
    </message>
    <message>
        <source>Margin cuts the operating area</source>
        <translation>Sicherheitsabstand zerschneidet das Betriebsgebiet</translation>
    </message>
    <message>
        <source>Where the operating area is narrower than two margins, the aircraft cannot pass and still stop before either boundary.</source>
        <translation>Wo das Betriebsgebiet schmaler ist als zwei Sicherheitsabstände, kann das Fluggerät nicht hindurch und vor beiden Grenzen noch anhalten.</translation>
    </message>
    <message>
        <source>Widen the narrow place, or plan each piece with a home of its own.</source>
        <translation>Verbreitern Sie die enge Stelle, oder planen Sie jedes Stück mit einem eigenen Rückkehrort.</translation>
    </message>
    <message>
        <source>The margin of %1 cuts the operating area on %2: %3 pieces of the clear area do not connect; the smallest, shown, has %4.</source>
        <translation>Der Sicherheitsabstand von %1 zerschneidet am %2 das Betriebsgebiet: %3 Stücke des freien Gebiets hängen nicht zusammen; das kleinste, hier gezeigt, hat %4.</translation>
    </message>
    <message>
        <source>Home within the margin</source>
        <translation>Rückkehrort im Sicherheitsabstand</translation>
    </message>
    <message>
        <source>On its last metres home the aircraft is nearer to a boundary than the distance in which it stops for certain.</source>
        <translation>Auf den letzten Metern zum Rückkehrort ist das Fluggerät näher an einer Grenze als die Strecke, auf der es sicher anhält.</translation>
    </message>
    <message>
        <source>Move the home inwards by the margin, or say why a landing there is safe all the same.</source>
        <translation>Rücken Sie den Rückkehrort um den Sicherheitsabstand nach innen, oder begründen Sie, warum eine Landung dort trotzdem sicher ist.</translation>
    </message>
    <message>
        <source>%1 lies within the margin of %2 on %3.</source>
        <translation>%1 liegt am %3 im Sicherheitsabstand von %2.</translation>
    </message>
    <message>
        <source>The landing radius of %1, %2, reaches into the margin of %3 on %4; the clear area ends %5 from it.</source>
        <translation>Der Landeradius von %1, %2, reicht am %4 in den Sicherheitsabstand von %3; das freie Gebiet endet %5 davon entfernt.</translation>
    </message>
    <message>
        <source>Margin not stated</source>
        <translation>Sicherheitsabstand nicht angegeben</translation>
    </message>
    <message>
        <source>An aircraft that turns back at the boundary stops beyond it: without a margin nobody can say how near it may come.</source>
        <translation>Ein Fluggerät, das erst an der Grenze umkehrt, hält jenseits von ihr an: Ohne Sicherheitsabstand kann niemand sagen, wie nah es kommen darf.</translation>
    </message>
    <message>
        <source>State position error, speed, reaction and deceleration of the aircraft: Audit, Margin.</source>
        <translation>Geben Sie Ortsfehler, Geschwindigkeit, Reaktion und Verzögerung des Fluggeräts an: Prüfung, Sicherheitsabstand.</translation>
    </message>
    <message>
        <source>No margin is stated for this set.</source>
        <translation>Für diesen Zaunsatz ist kein Sicherheitsabstand angegeben.</translation>
    </message>
    <message>
        <source>State the margin</source>
        <translation>Sicherheitsabstand angeben</translation>
    </message>
    <message>
        <source>Take the margin back</source>
        <translation>Sicherheitsabstand zurücknehmen</translation>
    </message>
    <message>
        <source>Change the margin</source>
        <translation>Sicherheitsabstand ändern</translation>
    </message>
    <message>
        <source>Correct that figure of the margin.</source>
        <translation>Berichtigen Sie diese Angabe im Sicherheitsabstand.</translation>
    </message>
    <message>
        <source>The position error of the margin is negative or no number.</source>
        <translation>Der Ortsfehler im Sicherheitsabstand ist negativ oder keine Zahl.</translation>
    </message>
    <message>
        <source>The speed of the margin is negative or no number.</source>
        <translation>Die Geschwindigkeit im Sicherheitsabstand ist negativ oder keine Zahl.</translation>
    </message>
    <message>
        <source>The reaction time of the margin is negative or no number.</source>
        <translation>Die Reaktionszeit im Sicherheitsabstand ist negativ oder keine Zahl.</translation>
    </message>
    <message>
        <source>The deceleration of the margin is negative or no number.</source>
        <translation>Die Verzögerung im Sicherheitsabstand ist negativ oder keine Zahl.</translation>
    </message>
    <message>
        <source>The allowance of the margin is negative or no number.</source>
        <translation>Der Zuschlag im Sicherheitsabstand ist negativ oder keine Zahl.</translation>
    </message>
    <message>
        <source>An aircraft with a speed and no deceleration never stops.</source>
        <translation>Ein Fluggerät mit einer Geschwindigkeit und ohne Verzögerung hält nie an.</translation>
    </message>
    <message>
        <source>Give the deceleration with which it brakes.</source>
        <translation>Geben Sie die Verzögerung an, mit der es bremst.</translation>
    </message>
    <message>
        <source>The margin is beyond all numbers.</source>
        <translation>Der Sicherheitsabstand übersteigt alle Zahlen.</translation>
    </message>
    <message>
        <source>it is negative.</source>
        <translation>sie ist negativ.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is no unit of it that is known here.</source>
        <translation>„%1“ ist hier als Einheit dafür nicht bekannt.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is not a speed: %2</source>
        <translation>„%1“ ist keine Geschwindigkeit: %2</translation>
    </message>
    <message>
        <source>Type a number and a unit, such as 15 m/s, 54 km/h, 30 kn or 35 mph.</source>
        <translation>Geben Sie eine Zahl und eine Einheit ein, etwa 15 m/s, 54 km/h, 30 kn oder 35 mph.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is not a deceleration: %2</source>
        <translation>„%1“ ist keine Verzögerung: %2</translation>
    </message>
    <message>
        <source>Type a number and a unit, such as 3 m/s², 10 ft/s² or 0.3 g.</source>
        <translation>Geben Sie eine Zahl und eine Einheit ein, etwa 3 m/s², 10 ft/s² oder 0.3 g.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is not a time: %2</source>
        <translation>„%1“ ist keine Zeit: %2</translation>
    </message>
    <message>
        <source>Type a number and a unit, such as 1.5 s.</source>
        <translation>Geben Sie eine Zahl und eine Einheit ein, etwa 1.5 s.</translation>
    </message>
    <message>
        <source>The sweep encloses nothing.</source>
        <translation>Der Zug umschließt nichts.</translation>
    </message>
    <message>
        <source>The sweep makes several areas.</source>
        <translation>Der Zug ergibt mehrere Flächen.</translation>
    </message>
    <message>
        <source>lon and lat, x and y, easting and northing, or wkt</source>
        <translation>lon und lat, x und y, easting und northing, oder wkt</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is not well-known text</source>
        <translation>„%1“ ist kein Well-known Text</translation>
    </message>
    <message>
        <source>&quot;%1&quot; and &quot;%2&quot; are not coordinates</source>
        <translation>„%1“ und „%2“ sind keine Koordinaten</translation>
    </message>
    <message>
        <source>this user</source>
        <translation>diesen Benutzer</translation>
    </message>
    <message>
        <source>the user has no right to it.</source>
        <translation>der Benutzer hat kein Recht darauf.</translation>
    </message>
    <message>
        <source>the shapes are those of &quot;%1&quot;.</source>
        <translation>die Formen sind die von „%1“.</translation>
    </message>
    <message>
        <source>it holds no text and no numbers.</source>
        <translation>darin stehen weder Text noch Zahlen.</translation>
    </message>
    <message>
        <source>no right to read it</source>
        <translation>kein Recht, sie zu lesen</translation>
    </message>
    <message>
        <source>the server does not know its SRID %1</source>
        <translation>der Server kennt ihre SRID %1 nicht</translation>
    </message>
    <message>
        <source>this machine does not know how the datum of %1 lies to WGS 84, for want of a grid or of any published way: all places may be off by some hundred metres.</source>
        <translation>dieser Rechner weiß nicht, wie das Datum von %1 zu WGS 84 liegt, weil ein Gitter fehlt oder kein Weg veröffentlicht ist: alle Orte können um einige hundert Meter falsch sein.</translation>
    </message>
    <message>
        <source>the way from %1 to WGS 84 that this machine knows may be off by %2 m.</source>
        <translation>der Weg von %1 nach WGS 84, den dieser Rechner kennt, kann um %2 m falsch sein.</translation>
    </message>
    <message>
        <source>its corner %1 cannot be brought from %2 to WGS 84</source>
        <translation>der Eckpunkt %1 lässt sich nicht von %2 nach WGS 84 bringen</translation>
    </message>
    <message>
        <source>its edge from %1 cannot be brought from %2 to WGS 84</source>
        <translation>die Kante ab %1 lässt sich nicht von %2 nach WGS 84 bringen</translation>
    </message>
    <message>
        <source>its edges are so long that they cannot be followed on the earth</source>
        <translation>die Kanten sind so lang, dass sie sich auf der Erde nicht verfolgen lassen</translation>
    </message>
    <message>
        <source>an edge of it passes a pole or another place where %1 has no straight way</source>
        <translation>eine Kante geht an einem Pol vorbei oder an einem anderen Ort, an dem %1 keinen geraden Weg hat</translation>
    </message>
    <message>
        <source>its coordinates %1 are no longitude and latitude; perhaps they are in another CRS than the file says, or the two are swapped</source>
        <translation>die Koordinaten %1 sind keine Länge und Breite; vielleicht stehen sie in einem anderen Bezugssystem, als die Datei sagt, oder die beiden sind vertauscht</translation>
    </message>
    <message>
        <source>it goes round the globe or a pole</source>
        <translation>es geht um den Globus oder um einen Pol</translation>
    </message>
    <message>
        <source>its first line does not name two columns, apart by commas, semicolons or tabs</source>
        <translation>die erste Zeile nennt keine zwei Spalten, getrennt durch Kommas, Semikolons oder Tabulatoren</translation>
    </message>
    <message>
        <source>its content is not that of this format</source>
        <translation>der Inhalt ist nicht der dieses Formats</translation>
    </message>
    <message>
        <source>%1, line %2, column %3</source>
        <translation>%1, Zeile %2, Spalte %3</translation>
    </message>
    <message>
        <source>collections nested more than %1 deep</source>
        <translation>Sammlungen, die tiefer als %1 geschachtelt sind</translation>
    </message>
    <message>
        <source>a point with a coordinate that is not a finite number</source>
        <translation>ein Punkt mit einer Koordinate, die keine endliche Zahl ist</translation>
    </message>
    <message>
        <source>a line with a coordinate that is not a finite number</source>
        <translation>eine Linie mit einer Koordinate, die keine endliche Zahl ist</translation>
    </message>
    <message>
        <source>a line of a single place</source>
        <translation>eine Linie aus einem einzigen Punkt</translation>
    </message>
    <message>
        <source>a surface with a coordinate that is not a finite number</source>
        <translation>eine Fläche mit einer Koordinate, die keine endliche Zahl ist</translation>
    </message>
    <message>
        <source>a surface of fewer than three corners</source>
        <translation>eine Fläche mit weniger als drei Eckpunkten</translation>
    </message>
    <message>
        <source>a hole of fewer than three corners</source>
        <translation>ein Loch mit weniger als drei Eckpunkten</translation>
    </message>
    <message>
        <source>an arc whose radius is beyond measure</source>
        <translation>ein Bogen, dessen Radius unermesslich ist</translation>
    </message>
    <message>
        <source>it is no condition</source>
        <translation>es ist keine Bedingung</translation>
    </message>
    <message>
        <source>Reading the features</source>
        <translation>Objekte werden gelesen</translation>
    </message>
    <message>
        <source>after feature %1</source>
        <translation>nach Objekt %1</translation>
    </message>
    <message>
        <source>JSON text</source>
        <translation>JSON-Text</translation>
    </message>
    <message>
        <source>XML text</source>
        <translation>XML-Text</translation>
    </message>
    <message>
        <source>a ZIP archive</source>
        <translation>ein ZIP-Archiv</translation>
    </message>
    <message>
        <source>an SQLite database</source>
        <translation>eine SQLite-Datenbank</translation>
    </message>
    <message>
        <source>a shapefile</source>
        <translation>ein Shapefile</translation>
    </message>
    <message>
        <source>a FlatGeobuf file</source>
        <translation>eine FlatGeobuf-Datei</translation>
    </message>
    <message>
        <source>a DXF drawing</source>
        <translation>eine DXF-Zeichnung</translation>
    </message>
    <message>
        <source>plain text</source>
        <translation>einfacher Text</translation>
    </message>
    <message>
        <source>of a kind unknown here</source>
        <translation>von einer hier unbekannten Art</translation>
    </message>
    <message>
        <source>it is longer than %1 letters</source>
        <translation>sie ist länger als %1 Zeichen</translation>
    </message>
    <message>
        <source>there is a control character in it</source>
        <translation>ein Steuerzeichen steht darin</translation>
    </message>
    <message>
        <source>a text has a letter before its quotation mark</source>
        <translation>ein Text hat einen Buchstaben vor seinem Anführungszeichen</translation>
    </message>
    <message>
        <source>the quotation mark of a text is not closed</source>
        <translation>das Anführungszeichen eines Textes ist nicht geschlossen</translation>
    </message>
    <message>
        <source>the quotation mark of a name is not closed</source>
        <translation>das Anführungszeichen eines Namens ist nicht geschlossen</translation>
    </message>
    <message>
        <source>a condition has no semicolon</source>
        <translation>eine Bedingung hat kein Semikolon</translation>
    </message>
    <message>
        <source>a condition has no &quot;%1&quot; outside of a text</source>
        <translation>eine Bedingung hat kein „%1“ außerhalb eines Textes</translation>
    </message>
    <message>
        <source>a condition has no comment</source>
        <translation>eine Bedingung hat keinen Kommentar</translation>
    </message>
    <message>
        <source>a name in quotation marks is called as a function</source>
        <translation>ein Name in Anführungszeichen wird als Funktion aufgerufen</translation>
    </message>
    <message>
        <source>the function %1 is not one that a filter may call</source>
        <translation>die Funktion %1 darf ein Filter nicht aufrufen</translation>
    </message>
    <message>
        <source>a bracket is closed that was not opened</source>
        <translation>eine Klammer wird geschlossen, die nicht geöffnet wurde</translation>
    </message>
    <message>
        <source>a bracket is not closed</source>
        <translation>eine Klammer ist nicht geschlossen</translation>
    </message>
    <message>
        <source>The file needs more memory than there is for it.</source>
        <translation>Die Datei braucht mehr Speicher, als für sie da ist.</translation>
    </message>
    <message>
        <source>Close other programs, or cut the file into parts.</source>
        <translation>Schließen Sie andere Programme, oder teilen Sie die Datei.</translation>
    </message>
    <message>
        <source>The file changed while it was read.</source>
        <translation>Die Datei hat sich geändert, während sie gelesen wurde.</translation>
    </message>
    <message>
        <source>Read it again when nobody writes to it.</source>
        <translation>Lesen Sie sie noch einmal, wenn niemand hineinschreibt.</translation>
    </message>
    <message>
        <source>Reading was given up after %1 seconds.</source>
        <translation>Das Lesen wurde nach %1 Sekunden aufgegeben.</translation>
    </message>
    <message>
        <source>Your document is untouched. The file is damaged, or very large: cut it into parts, or convert it to a GeoPackage.</source>
        <translation>Ihr Dokument ist unberührt. Die Datei ist beschädigt oder sehr groß: teilen Sie sie, oder wandeln Sie sie in ein GeoPackage um.</translation>
    </message>
    <message>
        <source>signal %1, %2</source>
        <translation>Signal %1, %2</translation>
    </message>
    <message>
        <source>exit code %1</source>
        <translation>Rückgabewert %1</translation>
    </message>
    <message>
        <source>The reader crashed on this file (%1).</source>
        <translation>Das Leseprogramm ist an dieser Datei abgestürzt (%1).</translation>
    </message>
    <message>
        <source>Your document is untouched. The file is damaged, or the reader has a fault: convert the file to another format.</source>
        <translation>Ihr Dokument ist unberührt. Die Datei ist beschädigt, oder das Leseprogramm hat einen Fehler: wandeln Sie die Datei in ein anderes Format um.</translation>
    </message>
    <message>
        <source>The format is not known.</source>
        <translation>Das Format ist nicht bekannt.</translation>
    </message>
    <message>
        <source>It cannot be read.</source>
        <translation>Sie lässt sich nicht lesen.</translation>
    </message>
    <message>
        <source>It has %1 bands and the raster %2.</source>
        <translation>Sie hat %1 Kanäle und das Rasterbild %2.</translation>
    </message>
    <message>
        <source>Band %1 holds values of another type.</source>
        <translation>Kanal %1 enthält Werte eines anderen Typs.</translation>
    </message>
    <message>
        <source>A picture in it has %1 x %2 pixels, which is no half of the one before.</source>
        <translation>Ein Bild darin hat %1 x %2 Pixel; das ist nicht die Hälfte des vorigen.</translation>
    </message>
    <message>
        <source>The reason is not known.</source>
        <translation>Der Grund ist nicht bekannt.</translation>
    </message>
    <message>
        <source>The server did not answer in time.</source>
        <translation>Der Server hat nicht rechtzeitig geantwortet.</translation>
    </message>
    <message>
        <source>Try again later, or ask whoever runs it.</source>
        <translation>Versuchen Sie es später wieder, oder fragen Sie, wer ihn betreibt.</translation>
    </message>
    <message>
        <source>Check the address and the connection, then read it again.</source>
        <translation>Prüfen Sie die Adresse und die Verbindung, dann lesen Sie noch einmal.</translation>
    </message>
    <message>
        <source>The server cannot prove that it is the one that was named: %1.</source>
        <translation>Der Server kann nicht beweisen, dass er der genannte ist: %1.</translation>
    </message>
    <message>
        <source>Ask whoever runs it about its certificate.</source>
        <translation>Fragen Sie, wer ihn betreibt, nach seinem Zertifikat.</translation>
    </message>
    <message>
        <source>The connection was cut: %1.</source>
        <translation>Die Verbindung wurde getrennt: %1.</translation>
    </message>
    <message>
        <source>Try again; it may have been for a moment.</source>
        <translation>Versuchen Sie es noch einmal; vielleicht war es nur für einen Augenblick.</translation>
    </message>
    <message>
        <source>its bands are not those of most files here.</source>
        <translation>ihre Kanäle sind nicht die der meisten Dateien hier.</translation>
    </message>
    <message>
        <source>its coordinate reference system is not that of most files here.</source>
        <translation>ihr Koordinatenbezugssystem ist nicht das der meisten Dateien hier.</translation>
    </message>
    <message>
        <source>There are no tiles z/x/y in this folder, and no GeoTIFF that makes a picture.</source>
        <translation>In diesem Ordner gibt es keine Kacheln z/x/y und kein GeoTIFF, das ein Bild ergibt.</translation>
    </message>
    <message>
        <source>There are no tiles z/x/y in this folder, and no GeoTIFF that makes a picture: %1</source>
        <translation>In diesem Ordner gibt es keine Kacheln z/x/y und kein GeoTIFF, das ein Bild ergibt: %1</translation>
    </message>
    <message>
        <source>And %1 more files are left out.</source>
        <translation>Und %1 weitere Dateien sind ausgelassen.</translation>
    </message>
    <message>
        <source>%1 is left out: %2</source>
        <translation>%1 ist ausgelassen: %2</translation>
    </message>
    <message>
        <source>its pixels are much larger or smaller than those of most files here.</source>
        <translation>ihre Pixel sind viel größer oder kleiner als die der meisten Dateien hier.</translation>
    </message>
    <message>
        <source>it lies too far away from the others.</source>
        <translation>sie liegt zu weit von den anderen entfernt.</translation>
    </message>
    <message>
        <source>it is older than the files in it.</source>
        <translation>sie ist älter als die Dateien darin.</translation>
    </message>
    <message>
        <source>The pyramid beside the folder is not used: %1</source>
        <translation>Die Pyramide neben dem Ordner wird nicht benutzt: %1</translation>
    </message>
    <message>
        <source>The server is busy or in trouble (HTTP status %1).</source>
        <translation>Der Server ist beschäftigt oder gestört (HTTP-Status %1).</translation>
    </message>
    <message>
        <source>%1, zoom %2, column %3, row %4</source>
        <translation>%1, Zoomstufe %2, Spalte %3, Zeile %4</translation>
    </message>
    <message>
        <source>its coordinates, %1, are not known</source>
        <translation>seine Koordinaten, %1, sind nicht bekannt</translation>
    </message>
    <message>
        <source>its coordinates, %1, cannot be brought to the earth</source>
        <translation>seine Koordinaten, %1, lassen sich nicht auf die Erde bringen</translation>
    </message>
    <message>
        <source>its resolution &apos;%1&apos; is not described as the standard says</source>
        <translation>seine Auflösung „%1“ ist nicht so beschrieben, wie der Standard es sagt</translation>
    </message>
    <message>
        <source>it has no resolutions</source>
        <translation>es hat keine Auflösungen</translation>
    </message>
    <message>
        <source>its tiles are no squares of one size between 64 and 1,024 pixels</source>
        <translation>seine Kacheln sind keine Quadrate von einer Größe zwischen 64 und 1.024 Pixeln</translation>
    </message>
    <message>
        <source>its scales do not double from one to the next</source>
        <translation>seine Maßstäbe verdoppeln sich nicht von einem zum nächsten</translation>
    </message>
    <message>
        <source> There are %1 MB free there.</source>
        <translation> Dort sind %1 MB frei.</translation>
    </message>
    <message>
        <source>its grid %1 is not described</source>
        <translation>ihr Kachelraster %1 ist nicht beschrieben</translation>
    </message>
    <message>
        <source>of its grid %1: %2</source>
        <translation>zu ihrem Kachelraster %1: %2</translation>
    </message>
    <message>
        <source>it is offered in no grid of tiles</source>
        <translation>sie wird in keinem Kachelraster angeboten</translation>
    </message>
    <message>
        <source>it is offered neither as PNG nor as JPEG</source>
        <translation>sie wird weder als PNG noch als JPEG angeboten</translation>
    </message>
    <message>
        <source>the server does not say how its tiles are asked for</source>
        <translation>der Server sagt nicht, wie ihre Kacheln erfragt werden</translation>
    </message>
    <message>
        <source>Keeping the layer</source>
        <translation>Die Ebene wird abgelegt</translation>
    </message>
    <message>
        <source>Another program has locked the file.</source>
        <translation>Ein anderes Programm hat die Datei gesperrt.</translation>
    </message>
    <message>
        <source>Close it there, and try again.</source>
        <translation>Schließen Sie sie dort, und versuchen Sie es noch einmal.</translation>
    </message>
    <message>
        <source>The file is not a GeoPackage.</source>
        <translation>Die Datei ist kein GeoPackage.</translation>
    </message>
    <message>
        <source>Choose another file, or import this one.</source>
        <translation>Wählen Sie eine andere Datei, oder importieren Sie diese.</translation>
    </message>
    <message>
        <source>Make space on the disk, or save elsewhere.</source>
        <translation>Schaffen Sie Platz auf dem Datenträger, oder speichern Sie woanders.</translation>
    </message>
    <message>
        <source>The file cannot be opened (%1).</source>
        <translation>Die Datei lässt sich nicht öffnen (%1).</translation>
    </message>
    <message>
        <source>Check the rights of the file and its folder.</source>
        <translation>Prüfen Sie die Rechte an der Datei und ihrem Ordner.</translation>
    </message>
    <message>
        <source>Reading the file takes too long; it is not as a document should be.</source>
        <translation>Das Lesen der Datei dauert zu lange; sie ist nicht, wie ein Dokument sein soll.</translation>
    </message>
    <message>
        <source>A value is too large for a document.</source>
        <translation>Ein Wert ist zu groß für ein Dokument.</translation>
    </message>
    <message>
        <source>Simplify the largest fence, or divide it.</source>
        <translation>Vereinfachen Sie den größten Zaun, oder teilen Sie ihn.</translation>
    </message>
    <message>
        <source>The file cannot be read or written (%1).</source>
        <translation>Die Datei lässt sich nicht lesen oder schreiben (%1).</translation>
    </message>
    <message>
        <source>Check the disk, and the rights of the file and its folder.</source>
        <translation>Prüfen Sie den Datenträger und die Rechte an der Datei und ihrem Ordner.</translation>
    </message>
    <message>
        <source>table %1 is missing.</source>
        <translation>die Tabelle %1 fehlt.</translation>
    </message>
    <message>
        <source>table %1, row %2</source>
        <translation>Tabelle %1, Zeile %2</translation>
    </message>
    <message>
        <source>table %1 has more rows than the document says, %2.</source>
        <translation>die Tabelle %1 hat mehr Zeilen, als das Dokument sagt: %2.</translation>
    </message>
    <message>
        <source>%1 is missing.</source>
        <translation>%1 fehlt.</translation>
    </message>
    <message>
        <source>%1 has no text for its value or checksum.</source>
        <translation>%1 hat keinen Text für Wert oder Prüfsumme.</translation>
    </message>
    <message>
        <source>%1 does not agree with its checksum.</source>
        <translation>%1 stimmt nicht mit der Prüfsumme überein.</translation>
    </message>
    <message>
        <source>%1, value %2.</source>
        <translation>%1, der Wert %2.</translation>
    </message>
    <message>
        <source>%1, member %2 %3.</source>
        <translation>%1, das Feld %2 %3.</translation>
    </message>
    <message>
        <source>table %1 has %2 rows; the document says %3.</source>
        <translation>die Tabelle %1 hat %2 Zeilen; das Dokument sagt %3.</translation>
    </message>
    <message>
        <source>table fencewright_document has no version.</source>
        <translation>die Tabelle fencewright_document hat keine Version.</translation>
    </message>
    <message>
        <source>Writing outlines</source>
        <translation>Umrisse werden geschrieben</translation>
    </message>
    <message>
        <source>it cannot be checked</source>
        <translation>sie lässt sich nicht prüfen</translation>
    </message>
    <message>
        <source>is missing</source>
        <translation>fehlt</translation>
    </message>
    <message>
        <source>is not an object</source>
        <translation>ist kein Objekt</translation>
    </message>
    <message>
        <source>is not known</source>
        <translation>ist nicht bekannt</translation>
    </message>
    <message>
        <source>is not a list</source>
        <translation>ist keine Liste</translation>
    </message>
    <message>
        <source>is neither true nor false</source>
        <translation>ist weder wahr noch falsch</translation>
    </message>
    <message>
        <source>is not a number</source>
        <translation>ist keine Zahl</translation>
    </message>
    <message>
        <source>is not a whole number</source>
        <translation>ist keine ganze Zahl</translation>
    </message>
    <message>
        <source>is out of range</source>
        <translation>liegt außerhalb des Bereichs</translation>
    </message>
    <message>
        <source>is not a text</source>
        <translation>ist kein Text</translation>
    </message>
    <message>
        <source>is none of the words that are known</source>
        <translation>ist keines der bekannten Wörter</translation>
    </message>
    <message>
        <source>is not a date</source>
        <translation>ist kein Datum</translation>
    </message>
    <message>
        <source>is not a day of the year</source>
        <translation>ist kein Tag des Jahres</translation>
    </message>
    <message>
        <source>has a longitude without a latitude</source>
        <translation>hat eine Länge ohne Breite</translation>
    </message>
    <message>
        <source>is not one place</source>
        <translation>ist kein einzelner Ort</translation>
    </message>
    <message>
        <source>is no kind of shape that is known</source>
        <translation>ist keine bekannte Art von Form</translation>
    </message>
    <message>
        <source>nests too deeply</source>
        <translation>ist zu tief geschachtelt</translation>
    </message>
    <message>
        <source>has a member twice</source>
        <translation>hat ein Feld zweimal</translation>
    </message>
    <message>
        <source>is not JSON</source>
        <translation>ist kein JSON</translation>
    </message>
    <message>
        <source>is no kind of geometry that is known</source>
        <translation>ist keine bekannte Art von Geometrie</translation>
    </message>
    <message>
        <source>is not a list of three</source>
        <translation>ist keine Liste von dreien</translation>
    </message>
    <message>
        <source>is not a list of two</source>
        <translation>ist keine Liste von zweien</translation>
    </message>
    <message>
        <source>%1: addresses of the network are not opened</source>
        <translation>%1: Adressen im Netz werden nicht geöffnet</translation>
    </message>
    <message>
        <source>Unpack it yourself and read what is in it, or ask for another copy.</source>
        <translation>Entpacken Sie es selbst und lesen Sie, was darin ist, oder bitten Sie um eine andere Kopie.</translation>
    </message>
    <message>
        <source>GeoPackage tiles</source>
        <translation>GeoPackage-Kacheln</translation>
    </message>
    <message>
        <source>Virtual mosaic (VRT)</source>
        <translation>virtuelles Mosaik (VRT)</translation>
    </message>
    <message>
        <source>folder of tiles z/x/y</source>
        <translation>Ordner mit Kacheln z/x/y</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>Writing the rows</source>
        <translation>Zeilen werden geschrieben</translation>
    </message>
    <message>
        <source>%1 copy</source>
        <translation>%1 (Kopie)</translation>
    </message>
    <message>
        <source>Feature %1</source>
        <translation>Objekt %1</translation>
    </message>
    <message>
        <source>%1 (%2 of %3)</source>
        <translation>%1 (%2 von %3)</translation>
    </message>
    <message>
        <source>Setback</source>
        <translation>Abstandsfläche</translation>
    </message>
    <message>
        <source>%1, setback</source>
        <translation>%1, Abstandsfläche</translation>
    </message>
    <message>
        <source>Reading the rows</source>
        <translation>Zeilen werden gelesen</translation>
    </message>
    <message>
        <source>Pasted area</source>
        <translation>Eingefügte Fläche</translation>
    </message>
    <message>
        <source>Pasted site</source>
        <translation>Eingefügtes Schutzobjekt</translation>
    </message>
    <message>
        <source>%1 copy %2</source>
        <translation>%1 (Kopie %2)</translation>
    </message>
    <message>
        <source>Red</source>
        <translation>Rot</translation>
    </message>
    <message>
        <source>Green</source>
        <translation>Grün</translation>
    </message>
    <message>
        <source>Blue</source>
        <translation>Blau</translation>
    </message>
    <message>
        <source>Alpha</source>
        <translation>Alpha</translation>
    </message>
    <message>
        <source>Palette</source>
        <translation>Palette</translation>
    </message>
    <message>
        <source>Grey</source>
        <translation>Grau</translation>
    </message>
    <message>
        <source>Band %1</source>
        <translation>Kanal %1</translation>
    </message>
    <message>
        <source>Near infrared</source>
        <translation>Nahes Infrarot</translation>
    </message>
    <message>
        <source>Reading the text</source>
        <translation>Lese den Text</translation>
    </message>
    <message>
        <source>Writing the text</source>
        <translation>Schreibe den Text</translation>
    </message>
    <message>
        <source>&quot;%1&quot; may be a place, or a distance and a bearing.</source>
        <translation>„%1“ kann ein Ort sein oder eine Entfernung und eine Richtung.</translation>
    </message>
    <message>
        <source>Put the unit after the distance, such as &quot;120 m 45&quot; or &quot;N 45 E 120 m&quot;, or a comma between coordinates, such as &quot;46.2088, -8.7339&quot;.</source>
        <translation>Schreiben Sie die Einheit hinter die Entfernung, etwa „120 m 45“ oder „N 45 E 120 m“, oder ein Komma zwischen die Koordinaten, etwa „46.2088, -8.7339“.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop</name>
    <message>
        <source>&lt;h2&gt;Fencewright %1&lt;/h2&gt;&lt;p&gt;Prepares geofences, finds their faults before a flight finds them, and hands them out so that nothing permits more than what was approved.&lt;/p&gt;&lt;h3&gt;Cautions&lt;/h3&gt;&lt;p&gt;Fencewright prepares geofences; it does not replace the rules of the place, the permits they ask for, the aircraft&apos;s own limits, or the judgement of a licensed pilot, surveyor or biologist. Where they and this program differ, they hold.&lt;/p&gt;&lt;ul&gt;&lt;li&gt;Published setbacks are starting points. The local authority, the permit and the season decide.&lt;/li&gt;&lt;li&gt;Parcels and imagery are as good as their source and their date. A boundary that matters is surveyed.&lt;/li&gt;&lt;li&gt;A fence stops an aircraft only where its flight system holds it, reads it alike and keeps a margin for position error, reaction and braking. Test before you rely on it.&lt;/li&gt;&lt;li&gt;Fences are no substitute for watching the airspace and the people under it.&lt;/li&gt;&lt;li&gt;After handing out, compare what the device really holds with what was delivered.&lt;/li&gt;&lt;/ul&gt;&lt;h3&gt;Built from&lt;/h3&gt;&lt;p&gt;Qt (LGPL), GDAL (MIT), GEOS (LGPL), PROJ (MIT), SQLite (public domain), OpenSSL (Apache-2.0), JSON for Modern C++ (MIT), DejaVu fonts (Bitstream Vera licence).&lt;/p&gt;</source>
        <translation>&lt;h2&gt;Fencewright %1&lt;/h2&gt;&lt;p&gt;Bereitet Geozäune vor, findet ihre Fehler, bevor ein Flug sie findet, und gibt sie so heraus, dass nichts mehr erlaubt, als genehmigt wurde.&lt;/p&gt;&lt;h3&gt;Vorbehalte&lt;/h3&gt;&lt;p&gt;Fencewright bereitet Geozäune vor; es ersetzt weder die Vorschriften des Orts noch die Genehmigungen, die sie verlangen, noch die Grenzen des Fluggeräts, noch das Urteil lizenzierter Piloten, Vermesser oder Biologen. Wo diese und das Programm voneinander abweichen, gelten diese.&lt;/p&gt;&lt;ul&gt;&lt;li&gt;Veröffentlichte Abstände sind Ausgangspunkte. Es entscheiden die örtliche Behörde, die Genehmigung und die Jahreszeit.&lt;/li&gt;&lt;li&gt;Flurstücke und Luftbilder sind so gut wie ihre Quelle und ihr Datum. Eine Grenze, auf die es ankommt, wird vermessen.&lt;/li&gt;&lt;li&gt;Ein Zaun hält ein Fluggerät nur auf, wo dessen Flugsystem ihn hat, ihn gleich liest und einen Rand für Ortsfehler, Reaktion und Bremsweg einhält. Erproben Sie ihn, bevor Sie sich darauf verlassen.&lt;/li&gt;&lt;li&gt;Zäune ersetzen nicht den Blick auf den Luftraum und die Menschen darunter.&lt;/li&gt;&lt;li&gt;Vergleichen Sie nach der Herausgabe, was das Gerät wirklich hat, mit dem, was ausgeliefert wurde.&lt;/li&gt;&lt;/ul&gt;&lt;h3&gt;Gebaut aus&lt;/h3&gt;&lt;p&gt;Qt (LGPL), GDAL (MIT), GEOS (LGPL), PROJ (MIT), SQLite (gemeinfrei), OpenSSL (Apache-2.0), JSON for Modern C++ (MIT), DejaVu-Schriften (Bitstream-Vera-Lizenz).&lt;/p&gt;</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is not a day of the calendar.</source>
        <translation>„%1“ ist kein Tag des Kalenders.</translation>
    </message>
    <message>
        <source>Write it as 2026-05-14 or 14 May 2026.</source>
        <translation>Schreiben Sie ihn als 2026-05-14 oder 14 Mai 2026.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; does not name the first and the last day of a season.</source>
        <translation>„%1“ nennt nicht den ersten und den letzten Tag einer Jahreszeit.</translation>
    </message>
    <message>
        <source>Write it as 1 Apr – 31 Aug, or leave it empty for the whole year.</source>
        <translation>Schreiben Sie sie als 1 Apr – 31 Aug, oder lassen Sie sie für das ganze Jahr leer.</translation>
    </message>
    <message>
        <source>It must be more than zero.</source>
        <translation>Das muss mehr als null sein.</translation>
    </message>
    <message>
        <source>For example 150 ft or 1/4 mi.</source>
        <translation>Zum Beispiel 150 ft oder 1/4 mi.</translation>
    </message>
    <message>
        <source>It cannot be less than zero.</source>
        <translation>Das kann nicht weniger als null sein.</translation>
    </message>
    <message>
        <source>For example 5 m.</source>
        <translation>Zum Beispiel 5 m.</translation>
    </message>
    <message>
        <source>MSL</source>
        <translation>MSL</translation>
    </message>
    <message>
        <source>ell.</source>
        <translation>Ell.</translation>
    </message>
    <message>
        <source>all heights</source>
        <translation>alle Höhen</translation>
    </message>
    <message>
        <source>from %1</source>
        <translation>ab %1</translation>
    </message>
    <message>
        <source>no limit</source>
        <translation>offen</translation>
    </message>
    <message>
        <source>over ground</source>
        <translation>über Grund</translation>
    </message>
    <message>
        <source>over sea</source>
        <translation>über dem Meer</translation>
    </message>
    <message>
        <source>ellipsoid</source>
        <translation>über Ellipsoid</translation>
    </message>
    <message>
        <source>Type the height first.</source>
        <translation>Tippen Sie zuerst die Höhe.</translation>
    </message>
    <message>
        <source>For example 120 m or 400 ft.</source>
        <translation>Zum Beispiel 120 m oder 400 ft.</translation>
    </message>
    <message>
        <source>Season</source>
        <translation>Jahreszeit</translation>
    </message>
    <message>
        <source>all year</source>
        <translation>ganzjährig</translation>
    </message>
    <message>
        <source>every year</source>
        <translation>jedes Jahr</translation>
    </message>
    <message>
        <source>Change season of %1</source>
        <translation>Jahreszeit von %1 ändern</translation>
    </message>
    <message>
        <source>that day included</source>
        <translation>mit diesem Tag</translation>
    </message>
    <message>
        <source>Change validity of %1</source>
        <translation>Gültigkeit von %1 ändern</translation>
    </message>
    <message>
        <source>The last day would lie before the first.</source>
        <translation>Der letzte Tag läge vor dem ersten.</translation>
    </message>
    <message>
        <source>Change the other one first, or leave it empty.</source>
        <translation>Ändern Sie zuerst den anderen, oder lassen Sie ihn leer.</translation>
    </message>
    <message>
        <source>Valid from</source>
        <translation>Gültig ab</translation>
    </message>
    <message>
        <source>always</source>
        <translation>immer</translation>
    </message>
    <message>
        <source>Valid until</source>
        <translation>Gültig bis</translation>
    </message>
    <message>
        <source>further notice</source>
        <translation>auf Weiteres</translation>
    </message>
    <message>
        <source>Basis</source>
        <translation>Grundlage</translation>
    </message>
    <message>
        <source>not given yet</source>
        <translation>noch nicht angegeben</translation>
    </message>
    <message>
        <source>permit</source>
        <translation>Genehmigung</translation>
    </message>
    <message>
        <source>lease</source>
        <translation>Pacht</translation>
    </message>
    <message>
        <source>guideline</source>
        <translation>Leitlinie</translation>
    </message>
    <message>
        <source>agreement</source>
        <translation>Vereinbarung</translation>
    </message>
    <message>
        <source>judgement</source>
        <translation>Ermessen</translation>
    </message>
    <message>
        <source>Change basis of %1</source>
        <translation>Grundlage von %1 ändern</translation>
    </message>
    <message>
        <source>Citation</source>
        <translation>Fundstelle</translation>
    </message>
    <message>
        <source>title, number, page</source>
        <translation>Titel, Nummer, Seite</translation>
    </message>
    <message>
        <source>States</source>
        <translation>Besagt</translation>
    </message>
    <message>
        <source>a distance</source>
        <translation>einen Abstand</translation>
    </message>
    <message>
        <source>Dated</source>
        <translation>Datiert</translation>
    </message>
    <message>
        <source>Given by</source>
        <translation>Angegeben von</translation>
    </message>
    <message>
        <source>person or office</source>
        <translation>Person oder Stelle</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Rename %1</source>
        <translation>%1 umbenennen</translation>
    </message>
    <message>
        <source>A fence needs a name.</source>
        <translation>Ein Zaun braucht einen Namen.</translation>
    </message>
    <message>
        <source>Findings and deliveries speak of it by name.</source>
        <translation>Befunde und Auslieferungen nennen ihn beim Namen.</translation>
    </message>
    <message>
        <source>Rule</source>
        <translation>Regel</translation>
    </message>
    <message>
        <source>keep-in: stay inside</source>
        <translation>Einsatzfläche: innen</translation>
    </message>
    <message>
        <source>keep-out: stay outside</source>
        <translation>Sperrfläche: außen</translation>
    </message>
    <message>
        <source>Change rule of %1</source>
        <translation>Regel von %1 ändern</translation>
    </message>
    <message>
        <source>Floor</source>
        <translation>Untergrenze</translation>
    </message>
    <message>
        <source>ground</source>
        <translation>Boden</translation>
    </message>
    <message>
        <source>Change floor of %1</source>
        <translation>Untergrenze von %1 ändern</translation>
    </message>
    <message>
        <source>Ceiling</source>
        <translation>Obergrenze</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>Change ceiling of %1</source>
        <translation>Obergrenze von %1 ändern</translation>
    </message>
    <message>
        <source>Switched on: audited and delivered</source>
        <translation>Eingeschaltet: geprüft und ausgeliefert</translation>
    </message>
    <message>
        <source>Switch %1</source>
        <translation>%1 umschalten</translation>
    </message>
    <message>
        <source>Notes</source>
        <translation>Notizen</translation>
    </message>
    <message>
        <source>Change notes of %1</source>
        <translation>Notizen von %1 ändern</translation>
    </message>
    <message>
        <source>as the file says</source>
        <translation>wie die Datei es sagt</translation>
    </message>
    <message>
        <source>natural colours</source>
        <translation>natürliche Farben</translation>
    </message>
    <message>
        <source>infrared false colour</source>
        <translation>Infrarot-Falschfarben</translation>
    </message>
    <message>
        <source>infrared false colour, if band %1 is infrared</source>
        <translation>Infrarot-Falschfarben, falls Kanal %1 infrarot ist</translation>
    </message>
    <message>
        <source>These are no bands of this raster.</source>
        <translation>Das sind keine Kanäle dieses Rasters.</translation>
    </message>
    <message>
        <source>Type three numbers from 1 to %1, for red, green and blue, or one for grey.</source>
        <translation>Tippen Sie drei Zahlen von 1 bis %1, für Rot, Grün und Blau, oder eine für Grau.</translation>
    </message>
    <message>
        <source>This is no range of values.</source>
        <translation>Das ist kein Wertebereich.</translation>
    </message>
    <message>
        <source>Type the value that becomes black and a greater one that becomes white: 120 3400.</source>
        <translation>Tippen Sie den Wert, der schwarz wird, und einen größeren, der weiß wird: 120 3400.</translation>
    </message>
    <message>
        <source>Colours</source>
        <translation>Farben</translation>
    </message>
    <message>
        <source>bands as typed below</source>
        <translation>Kanäle wie unten getippt</translation>
    </message>
    <message>
        <source>Change bands of %1</source>
        <translation>Kanäle von %1 ändern</translation>
    </message>
    <message>
        <source>Bands</source>
        <translation>Kanäle</translation>
    </message>
    <message>
        <source>Light and dark</source>
        <translation>Hell und dunkel</translation>
    </message>
    <message>
        <source>automatic</source>
        <translation>automatisch</translation>
    </message>
    <message>
        <source>leaving out the 2 % at each end</source>
        <translation>ohne die 2 % an beiden Enden</translation>
    </message>
    <message>
        <source>darkest to lightest</source>
        <translation>vom dunkelsten zum hellsten</translation>
    </message>
    <message>
        <source>values as typed below</source>
        <translation>Werte wie unten getippt</translation>
    </message>
    <message>
        <source>Change light and dark of %1</source>
        <translation>Hell und dunkel von %1 ändern</translation>
    </message>
    <message>
        <source>Values</source>
        <translation>Werte</translation>
    </message>
    <message>
        <source>become black and white</source>
        <translation>werden schwarz und weiß</translation>
    </message>
    <message>
        <source>Seen as a whole</source>
        <translation>Als Ganzes gesehen</translation>
    </message>
    <message>
        <source>Slow: it has no smaller pictures of itself. They can be put beside the file; the file itself stays as it is.</source>
        <translation>Langsam: Es hat keine kleineren Bilder seiner selbst. Sie können neben die Datei gelegt werden; die Datei selbst bleibt, wie sie ist.</translation>
    </message>
    <message>
        <source>Its smaller pictures are being built; it can be used meanwhile.</source>
        <translation>Die kleineren Bilder werden gebaut; es kann inzwischen benutzt werden.</translation>
    </message>
    <message>
        <source>Quick: smaller pictures were built, and are kept on this computer. Put beside the file, other programs find them too.</source>
        <translation>Schnell: Kleinere Bilder wurden gebaut und liegen auf diesem Rechner. Neben der Datei finden sie auch andere Programme.</translation>
    </message>
    <message>
        <source>Its smaller pictures could not be built. %1</source>
        <translation>Die kleineren Bilder konnten nicht gebaut werden. %1</translation>
    </message>
    <message>
        <source>Stop</source>
        <translation>Anhalten</translation>
    </message>
    <message>
        <source>Put beside the file</source>
        <translation>Neben die Datei legen</translation>
    </message>
    <message>
        <source>Imagery of a server may be years old and lie metres beside its true place. Tiles are kept on this computer for a week, or as long as the server says.</source>
        <translation>Luftbilder eines Servers können Jahre alt sein und Meter neben ihrem wahren Ort liegen. Kacheln werden eine Woche auf diesem Rechner aufbewahrt, oder so lange der Server es sagt.</translation>
    </message>
    <message>
        <source>Worth knowing</source>
        <translation>Wissenswert</translation>
    </message>
    <message>
        <source>Kind of site</source>
        <translation>Art des Objekts</translation>
    </message>
    <message>
        <source>nest, school, store …</source>
        <translation>Nest, Schule, Lager …</translation>
    </message>
    <message>
        <source>Change kind of %1</source>
        <translation>Art von %1 ändern</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>Move %1</source>
        <translation>%1 verschieben</translation>
    </message>
    <message>
        <source>Shape</source>
        <translation>Form</translation>
    </message>
    <message>
        <source>a line of %1 corners</source>
        <translation>eine Linie mit %1 Ecken</translation>
    </message>
    <message>
        <source>an area of %1 corners</source>
        <translation>eine Fläche mit %1 Ecken</translation>
    </message>
    <message>
        <source>Position error</source>
        <translation>Ortsfehler</translation>
    </message>
    <message>
        <source>added to setbacks</source>
        <translation>wird zu Abständen addiert</translation>
    </message>
    <message>
        <source>Change position error of %1</source>
        <translation>Ortsfehler von %1 ändern</translation>
    </message>
    <message>
        <source>Found by</source>
        <translation>Gefunden durch</translation>
    </message>
    <message>
        <source>hand-held GNSS, map, survey …</source>
        <translation>GNSS-Handgerät, Karte, Vermessung …</translation>
    </message>
    <message>
        <source>Change source of %1</source>
        <translation>Quelle von %1 ändern</translation>
    </message>
    <message>
        <source>New setback</source>
        <translation>Neue Abstandsfläche</translation>
    </message>
    <message>
        <source>Keep out</source>
        <translation>Abstand halten</translation>
    </message>
    <message>
        <source>Give %1 a setback</source>
        <translation>%1 eine Abstandsfläche geben</translation>
    </message>
    <message>
        <source>Confidential: place and name not delivered</source>
        <translation>Vertraulich: Ort und Name nicht ausgeliefert</translation>
    </message>
    <message>
        <source>Change confidentiality of %1</source>
        <translation>Vertraulichkeit von %1 ändern</translation>
    </message>
    <message>
        <source>Kind</source>
        <translation>Art</translation>
    </message>
    <message>
        <source>home: starts and returns here</source>
        <translation>Rückkehrort: startet hier und kehrt hierher zurück</translation>
    </message>
    <message>
        <source>alternate: may land here</source>
        <translation>Ausweichort: darf hier landen</translation>
    </message>
    <message>
        <source>Landing radius</source>
        <translation>Landeradius</translation>
    </message>
    <message>
        <source>Change landing radius of %1</source>
        <translation>Landeradius von %1 ändern</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Zustand</translation>
    </message>
    <message>
        <source>Being read …</source>
        <translation>Wird gelesen …</translation>
    </message>
    <message>
        <source>%1, %2 × %3 pixels, %4</source>
        <translation>%1, %2 × %3 Pixel, %4</translation>
    </message>
    <message>
        <source>place unknown</source>
        <translation>Ort unbekannt</translation>
    </message>
    <message>
        <source>%1, features read: %2, left out: %3, %4</source>
        <translation>%1, gelesene Objekte: %2, ausgelassen: %3, %4</translation>
    </message>
    <message>
        <source>Shown on the map</source>
        <translation>Auf der Karte gezeigt</translation>
    </message>
    <message>
        <source>Show or hide %1</source>
        <translation>%1 zeigen oder verbergen</translation>
    </message>
    <message>
        <source>Opacity</source>
        <translation>Deckkraft</translation>
    </message>
    <message>
        <source>%1 %</source>
        <translation>%1 %</translation>
    </message>
    <message>
        <source>Change opacity of %1</source>
        <translation>Deckkraft von %1 ändern</translation>
    </message>
    <message>
        <source>Captured</source>
        <translation>Aufgenommen</translation>
    </message>
    <message>
        <source>unknown</source>
        <translation>unbekannt</translation>
    </message>
    <message>
        <source>Change date of %1</source>
        <translation>Datum von %1 ändern</translation>
    </message>
    <message>
        <source>Coordinates</source>
        <translation>Koordinaten</translation>
    </message>
    <message>
        <source>the file&apos;s own</source>
        <translation>das der Datei</translation>
    </message>
    <message>
        <source>Change coordinate system of %1</source>
        <translation>Koordinatensystem von %1 ändern</translation>
    </message>
    <message>
        <source>Change columns of %1</source>
        <translation>Spalten von %1 ändern</translation>
    </message>
    <message>
        <source>Label column</source>
        <translation>Spalte der Beschriftung</translation>
    </message>
    <message>
        <source>Parcel number</source>
        <translation>Flurstücksnummer</translation>
    </message>
    <message>
        <source>Only where</source>
        <translation>Nur wo</translation>
    </message>
    <message>
        <source>all features</source>
        <translation>alle Objekte</translation>
    </message>
    <message>
        <source>Change filter of %1</source>
        <translation>Filter von %1 ändern</translation>
    </message>
    <message>
        <source>Table</source>
        <translation>Tabelle</translation>
    </message>
    <message>
        <source>Server</source>
        <translation>Server</translation>
    </message>
    <message>
        <source>File</source>
        <translation>Datei</translation>
    </message>
    <message>
        <source>%1 %2</source>
        <comment>day and month</comment>
        <translation>%1. %2</translation>
    </message>
    <message>
        <source>%1 %2 %3</source>
        <comment>day, month, year</comment>
        <translation>%1. %2 %3</translation>
    </message>
    <message>
        <source>Refused: %1 %2</source>
        <translation>Abgewiesen: %1 %2</translation>
    </message>
    <message>
        <source>Damaged: %1 %2</source>
        <translation>Beschädigt: %1 %2</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>%1, locked</source>
        <translation>%1, fixiert</translation>
    </message>
    <message>
        <source>Site</source>
        <translation>Schutzobjekt</translation>
    </message>
    <message>
        <source>Home</source>
        <translation>Rückkehrort</translation>
    </message>
    <message>
        <source>Alternate</source>
        <translation>Ausweichort</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::CalendarBars</name>
    <message>
        <source>Calendar</source>
        <translation>Kalender</translation>
    </message>
    <message>
        <source>Arrow keys move the date by a day, page keys by a month.</source>
        <translation>Pfeiltasten verschieben das Datum um einen Tag, Bild auf und Bild ab um einen Monat.</translation>
    </message>
    <message>
        <source>Drag the date; arrow keys move it by a day, page keys by a month.</source>
        <translation>Ziehen Sie das Datum; Pfeiltasten verschieben es um einen Tag, Bild auf und Bild ab um einen Monat.</translation>
    </message>
    <message>
        <source>In force, %1</source>
        <translation>In Kraft, %1</translation>
    </message>
    <message>
        <source>&amp;Go to %1</source>
        <translation>Zu %1 &amp;gehen</translation>
    </message>
    <message>
        <source>Go to &amp;today, %1</source>
        <translation>Zu &amp;heute gehen, %1</translation>
    </message>
    <message>
        <source>&amp;Edit %1</source>
        <translation>%1 &amp;bearbeiten</translation>
    </message>
    <message>
        <source>&amp;Copy %1</source>
        <translation>%1 &amp;kopieren</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::CalendarStrip</name>
    <message>
        <source>Date</source>
        <translation>Datum</translation>
    </message>
    <message>
        <source>The day that the map, the findings and the operating area are about</source>
        <translation>Der Tag, um den es auf der Karte, bei den Befunden und beim Betriebsgebiet geht</translation>
    </message>
    <message>
        <source>%1 comes into force</source>
        <translation>%1 tritt in Kraft</translation>
    </message>
    <message>
        <source>%1 ends</source>
        <translation>%1 endet</translation>
    </message>
    <message>
        <source>No fences yet</source>
        <translation>Noch keine Zäune</translation>
    </message>
    <message>
        <source>Nothing changes within two years</source>
        <translation>Nichts ändert sich innerhalb von zwei Jahren</translation>
    </message>
    <message>
        <source>Next change: %1, %2</source>
        <translation>Nächste Änderung: %1, %2</translation>
    </message>
    <message>
        <source>%1 fences</source>
        <translation>%1 Zäune</translation>
    </message>
    <message>
        <source>No operating area on this day</source>
        <translation>Kein Betriebsgebiet an diesem Tag</translation>
    </message>
    <message>
        <source>Operating area %1</source>
        <translation>Betriebsgebiet %1</translation>
    </message>
    <message>
        <source>Operating area %1
Clear area %2</source>
        <translation>Betriebsgebiet %1
Freies Gebiet %2</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::CommandSearch</name>
    <message>
        <source>Command, place, name or parcel</source>
        <translation>Befehl, Ort, Name oder Flurstück</translation>
    </message>
    <message>
        <source>Search</source>
        <translation>Suche</translation>
    </message>
    <message>
        <source>Type a command, a coordinate, a date, a name or a parcel number; Enter takes the marked line.</source>
        <translation>Tippen Sie einen Befehl, eine Koordinate, ein Datum, einen Namen oder eine Flurstücksnummer; Eingabe nimmt die markierte Zeile.</translation>
    </message>
    <message>
        <source>A command, a coordinate in any notation, a date, a fence or site, a parcel number, or any column of a reference layer: “owner: mill”</source>
        <translation>Ein Befehl, eine Koordinate in jeder Schreibweise, ein Datum, ein Zaun oder Objekt, eine Flurstücksnummer, oder eine Spalte einer Referenzebene: „eigentümer: mühle“</translation>
    </message>
    <message>
        <source>Found</source>
        <translation>Gefunden</translation>
    </message>
    <message>
        <source>Nothing of that name. Try “deliver” or “46.2 -8.7”.</source>
        <translation>Nichts mit diesem Namen. Versuchen Sie „ausliefern“ oder „46.2 -8.7“.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::ConnectDialog</name>
    <message>
        <source>Connect to a server</source>
        <translation>Mit einem Server verbinden</translation>
    </message>
    <message>
        <source>Connect</source>
        <translation>Verbinden</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::CornerModel</name>
    <message>
        <source>%1 %2, %3: %4</source>
        <translation>%1 %2, %3: %4</translation>
    </message>
    <message>
        <source>Move corner of %1</source>
        <translation>Ecke von %1 verschieben</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::CornersDialog</name>
    <message>
        <source>Corners</source>
        <translation>Ecken</translation>
    </message>
    <message>
        <source>Table of corners</source>
        <translation>Tabelle der Ecken</translation>
    </message>
    <message>
        <source>%1 (%2)</source>
        <translation>%1 (%2)</translation>
    </message>
    <message>
        <source>Insert</source>
        <translation>Neue Ecke</translation>
    </message>
    <message>
        <source>Delete</source>
        <translation>Löschen</translation>
    </message>
    <message>
        <source>Copy</source>
        <translation>Kopieren</translation>
    </message>
    <message>
        <source>Paste…</source>
        <translation>Einfügen…</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>%1, %2 corners</source>
        <translation>%1, %2 Ecken</translation>
    </message>
    <message>
        <source>Choose one polygon or corridor on the map.</source>
        <translation>Wählen Sie ein Polygon oder einen Korridor auf der Karte.</translation>
    </message>
    <message>
        <source>A line of one corner has no leg to put another on.</source>
        <translation>Eine Linie mit einer Ecke hat keine Strecke für eine weitere.</translation>
    </message>
    <message>
        <source>Add corner to %1</source>
        <translation>Ecke zu %1 hinzufügen</translation>
    </message>
    <message>
        <source>Delete corner of %1</source>
        <translation>Ecke von %1 löschen</translation>
    </message>
    <message>
        <source>Delete %1 corners of %2</source>
        <translation>%1 Ecken von %2 löschen</translation>
    </message>
    <message>
        <source>Instead of corner %1 of %2</source>
        <translation>Statt Ecke %1 von %2</translation>
    </message>
    <message>
        <source>Instead of the %1 chosen corners</source>
        <translation>Statt der %1 ausgewählten Ecken</translation>
    </message>
    <message>
        <source>After corner %1 of %2</source>
        <translation>Nach Ecke %1 von %2</translation>
    </message>
    <message>
        <source>Instead of all %1 corners of %2</source>
        <translation>Statt aller %1 Ecken von %2</translation>
    </message>
    <message>
        <source>Paste corners into %1</source>
        <translation>Ecken in %1 einfügen</translation>
    </message>
    <message>
        <source>Reading the pasted rows…</source>
        <translation>Eingefügte Zeilen werden gelesen …</translation>
    </message>
    <message>
        <source>Copying %1 corners</source>
        <translation>%1 Ecken werden kopiert</translation>
    </message>
    <message>
        <source>%1 corners are on the clipboard.</source>
        <translation>%1 Ecken sind in der Zwischenablage.</translation>
    </message>
    <message>
        <source>Reading the pasted rows</source>
        <translation>Eingefügte Zeilen werden gelesen</translation>
    </message>
    <message>
        <source>The pasted rows were dropped: they were meant for the fence that was shown before.</source>
        <translation>Die eingefügten Zeilen wurden verworfen: sie waren für den Zaun gedacht, der vorher gezeigt wurde.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::CredentialFields</name>
    <message>
        <source>Key</source>
        <translation>Schlüssel</translation>
    </message>
    <message>
        <source>Name, if it asks for one</source>
        <translation>Name, falls er danach fragt</translation>
    </message>
    <message>
        <source>if it asks for one</source>
        <translation>falls er danach fragt</translation>
    </message>
    <message>
        <source>Password</source>
        <translation>Passwort</translation>
    </message>
    <message>
        <source>Your name there</source>
        <translation>Ihr Name dort</translation>
    </message>
    <message>
        <source>Key, name and password are kept in memory until the window is closed, and written down nowhere.</source>
        <translation>Schlüssel, Name und Passwort bleiben im Speicher, bis das Fenster geschlossen wird, und werden nirgends aufgeschrieben.</translation>
    </message>
    <message>
        <source>This address begins with http: on the way there, anybody can read them.</source>
        <translation>Diese Adresse beginnt mit http: Unterwegs kann sie jeder lesen.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::DeedDialog</name>
    <message>
        <source>Draw the fence</source>
        <translation>Zaun zeichnen</translation>
    </message>
    <message>
        <source>Fence from a deed</source>
        <translation>Zaun aus einer Urkunde</translation>
    </message>
    <message>
        <source>One course a line: a bearing and a distance. A deed is as good as its survey: walk the boundary where it matters, and leave its meaning to a licensed surveyor.</source>
        <translation>Eine Seite je Zeile: Richtung und Entfernung. Eine Urkunde ist so gut wie ihre Vermessung: Gehen Sie die Grenze ab, wo es darauf ankommt, und überlassen Sie ihre Deutung einem lizenzierten Vermesser.</translation>
    </message>
    <message>
        <source>Keep-out</source>
        <translation>Sperrfläche</translation>
    </message>
    <message>
        <source>Keep-in</source>
        <translation>Einsatzfläche</translation>
    </message>
    <message>
        <source>&amp;Kind</source>
        <translation>&amp;Art</translation>
    </message>
    <message>
        <source>&amp;Begins at</source>
        <translation>&amp;Beginnt bei</translation>
    </message>
    <message>
        <source>True bearing of the deed&apos;s north: the grid&apos;s convergence, or the declination of its year</source>
        <translation>Wahre Richtung des Nordens der Urkunde: die Meridiankonvergenz des Gitters, oder die Missweisung ihres Jahres</translation>
    </message>
    <message>
        <source>Deed&apos;s &amp;north</source>
        <translation>&amp;Nord der Urkunde</translation>
    </message>
    <message>
        <source>Courses</source>
        <translation>Seiten</translation>
    </message>
    <message>
        <source>S 68°05&apos;35&quot; W 472.68 ft
N 19-46-00 W 216.13 ft
curve right, radius 200 ft, arc 104.72 ft
120 m 45
units: m, ft, ftUS, ch, yd, mi</source>
        <translation>S 68°05&apos;35&quot; W 472.68 ft
N 19-46-00 W 216.13 ft
curve right, radius 200 ft, arc 104.72 ft
120 m 45
units: m, ft, ftUS, ch, yd, mi</translation>
    </message>
    <message>
        <source>&amp;Close it by the compass rule</source>
        <translation>&amp;Proportional zur Länge schließen</translation>
    </message>
    <message>
        <source>Each course takes its share of the misclosure, by its length</source>
        <translation>Jede Seite nimmt nach ihrer Länge Anteil am Schlussfehler</translation>
    </message>
    <message>
        <source>Misclosure %1, bearing %2: 1 : %3.</source>
        <translation>Schlussfehler %1, Richtung %2: 1 : %3.</translation>
    </message>
    <message>
        <source>It closes.</source>
        <translation>Sie schließt.</translation>
    </message>
    <message>
        <source>%1 Perimeter %2, area %3.</source>
        <translation>%1 Umfang %2, Fläche %3.</translation>
    </message>
    <message>
        <source>That is poor: look for a course that was misread or is missing.</source>
        <translation>Das ist schlecht: Suchen Sie eine Seite, die verlesen wurde oder fehlt.</translation>
    </message>
    <message>
        <source>A straight edge closes it.</source>
        <translation>Eine gerade Kante schließt sie.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::DeliveryDialog</name>
    <message>
        <source>steps of %1 m</source>
        <translation>Schritte von %1 m</translation>
    </message>
    <message>
        <source>steps of %1 cm</source>
        <translation>Schritte von %1 cm</translation>
    </message>
    <message>
        <source>steps of %1 mm</source>
        <translation>Schritte von %1 mm</translation>
    </message>
    <message>
        <source>Deliver</source>
        <translation>Ausliefern</translation>
    </message>
    <message>
        <source>Deliver 1 fence</source>
        <translation>1 Zaun ausliefern</translation>
    </message>
    <message>
        <source>Deliver %1 fences</source>
        <translation>%1 Zäune ausliefern</translation>
    </message>
    <message>
        <source>Whatever is rounded or simplified makes keep-outs larger and keep-ins smaller, never the other way. The file is read back and compared before it counts as delivered.</source>
        <translation>Was gerundet oder vereinfacht wird, macht Sperrflächen größer und Einsatzflächen kleiner, niemals umgekehrt. Die Datei wird zurückgelesen und verglichen, bevor sie als ausgeliefert gilt.</translation>
    </message>
    <message>
        <source>The audit reports 1 error: this set should not be flown as it is.</source>
        <translation>Die Prüfung meldet 1 Fehler: Dieser Satz sollte so nicht geflogen werden.</translation>
    </message>
    <message>
        <source>The audit reports %1 errors: this set should not be flown as it is.</source>
        <translation>Die Prüfung meldet %1 Fehler: Dieser Satz sollte so nicht geflogen werden.</translation>
    </message>
    <message>
        <source>Format</source>
        <translation>Format</translation>
    </message>
    <message>
        <source>Browse…</source>
        <translation>Durchsuchen…</translation>
    </message>
    <message>
        <source>File</source>
        <translation>Datei</translation>
    </message>
    <message>
        <source>Decimals of a degree</source>
        <translation>Nachkommastellen eines Grads</translation>
    </message>
    <message>
        <source>no limit</source>
        <translation>offen</translation>
    </message>
    <message>
        <source>some devices hold only so many</source>
        <translation>manche Geräte fassen nur so viele</translation>
    </message>
    <message>
        <source>Most corners per fence</source>
        <translation>Höchstens Ecken je Zaun</translation>
    </message>
    <message>
        <source>Sites, without the confidential ones</source>
        <translation>Schutzobjekte, ohne die vertraulichen</translation>
    </message>
    <message>
        <source>Homes and alternates</source>
        <translation>Rückkehr- und Ausweichorte</translation>
    </message>
    <message>
        <source>Also</source>
        <translation>Außerdem</translation>
    </message>
    <message>
        <source>Deliver to</source>
        <translation>Ausliefern nach</translation>
    </message>
    <message>
        <source>There is no enabled fence to deliver.</source>
        <translation>Kein eingeschalteter Zaun ist auszuliefern.</translation>
    </message>
    <message>
        <source>Name a file.</source>
        <translation>Nennen Sie eine Datei.</translation>
    </message>
    <message>
        <source>There is no folder %1.</source>
        <translation>Es gibt keinen Ordner %1.</translation>
    </message>
    <message>
        <source>That is a folder; name a file in it.</source>
        <translation>Das ist ein Ordner; nennen Sie eine Datei darin.</translation>
    </message>
    <message>
        <source>The document was changed meanwhile: the set is delivered as it was before.</source>
        <translation>Das Dokument wurde inzwischen geändert: ausgeliefert wird der Zaunsatz, wie er vorher war.</translation>
    </message>
    <message>
        <source>The audit of this set is not finished.</source>
        <translation>Die Prüfung dieses Zaunsatzes ist nicht abgeschlossen.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::DeliveryFlow</name>
    <message>
        <source>fence-set</source>
        <translation>zaunsatz</translation>
    </message>
    <message>
        <source>Delivering %1</source>
        <translation>%1 wird ausgeliefert</translation>
    </message>
    <message>
        <source>%1 is being delivered already. Deliver again when that is done.</source>
        <translation>%1 wird schon ausgeliefert. Liefern Sie noch einmal aus, wenn das fertig ist.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::DeliveryResultDialog</name>
    <message>
        <source>Delivered</source>
        <translation>Ausgeliefert</translation>
    </message>
    <message>
        <source>Not delivered</source>
        <translation>Nicht ausgeliefert</translation>
    </message>
    <message>
        <source>Confirmed: read back, and nothing in it permits more than the set</source>
        <translation>Bestätigt: zurückgelesen, und nichts darin erlaubt mehr als der Satz</translation>
    </message>
    <message>
        <source>Not confirmed: the file does not count as delivered</source>
        <translation>Nicht bestätigt: Die Datei gilt nicht als ausgeliefert</translation>
    </message>
    <message>
        <source>File</source>
        <translation>Datei</translation>
    </message>
    <message>
        <source>Format</source>
        <translation>Format</translation>
    </message>
    <message>
        <source>Written</source>
        <translation>Geschrieben</translation>
    </message>
    <message>
        <source>%1 fences, %2 corners</source>
        <translation>%1 Zäune, %2 Ecken</translation>
    </message>
    <message>
        <source>Cost</source>
        <translation>Preis</translation>
    </message>
    <message>
        <source>keep-outs larger by %1, keep-ins smaller by %2</source>
        <translation>Sperrflächen um %1 größer, Einsatzflächen um %2 kleiner</translation>
    </message>
    <message>
        <source>SHA-256</source>
        <translation>SHA-256</translation>
    </message>
    <message>
        <source>To mind</source>
        <translation>Zu beachten</translation>
    </message>
    <message>
        <source>Show in folder</source>
        <translation>Im Ordner zeigen</translation>
    </message>
    <message>
        <source>Copy checksum</source>
        <translation>Prüfsumme kopieren</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::DocumentFlow</name>
    <message>
        <source>Open document</source>
        <translation>Dokument öffnen</translation>
    </message>
    <message>
        <source>Fence sets (*.gpkg);;All files (*)</source>
        <translation>Zaunsätze (*.gpkg);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Opening %1</source>
        <translation>%1 wird geöffnet</translation>
    </message>
    <message>
        <source>This file cannot be written. Save under another name to keep changes.</source>
        <translation>Diese Datei kann nicht geschrieben werden. Speichern Sie unter einem anderen Namen, um Änderungen zu behalten.</translation>
    </message>
    <message>
        <source>Unsaved work</source>
        <translation>Nicht gespeicherte Arbeit</translation>
    </message>
    <message>
        <source>&lt;b&gt;Save the changes in %1?&lt;/b&gt;</source>
        <translation>&lt;b&gt;Die Änderungen in %1 speichern?&lt;/b&gt;</translation>
    </message>
    <message>
        <source>Without saving they are gone.</source>
        <translation>Ohne Speichern sind sie verloren.</translation>
    </message>
    <message>
        <source>fence-set.gpkg</source>
        <translation>zaunsatz.gpkg</translation>
    </message>
    <message>
        <source>Save document as</source>
        <translation>Dokument speichern unter</translation>
    </message>
    <message>
        <source>Fence sets (*.gpkg)</source>
        <translation>Zaunsätze (*.gpkg)</translation>
    </message>
    <message>
        <source>The document is being saved; try again when that is done.</source>
        <translation>Das Dokument wird gerade gespeichert; versuchen Sie es danach noch einmal.</translation>
    </message>
    <message>
        <source>Saving %1</source>
        <translation>%1 wird gespeichert</translation>
    </message>
    <message>
        <source>Recovering unsaved work</source>
        <translation>Nicht gespeicherte Arbeit wird wiederhergestellt</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::DoorDialog</name>
    <message>
        <source>Connect to a server</source>
        <translation>Mit einem Server verbinden</translation>
    </message>
    <message>
        <source>Your name there</source>
        <translation>Ihr Name dort</translation>
    </message>
    <message>
        <source>Password</source>
        <translation>Passwort</translation>
    </message>
    <message>
        <source>if another than on this machine</source>
        <translation>falls ein anderer als auf diesem Rechner</translation>
    </message>
    <message>
        <source>if the server asks for one</source>
        <translation>falls der Server eines verlangt</translation>
    </message>
    <message>
        <source>The password is kept in memory until the window is closed, and written down nowhere.</source>
        <translation>Das Passwort bleibt im Speicher, bis das Fenster geschlossen wird, und wird nirgends aufgeschrieben.</translation>
    </message>
    <message>
        <source>Connect</source>
        <translation>Verbinden</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::EditsPanel</name>
    <message>
        <source>now</source>
        <translation>jetzt</translation>
    </message>
    <message>
        <source>saved</source>
        <translation>gespeichert</translation>
    </message>
    <message>
        <source>taken back</source>
        <translation>zurückgenommen</translation>
    </message>
    <message>
        <source>The beginning</source>
        <translation>Der Anfang</translation>
    </message>
    <message>
        <source>As opened</source>
        <translation>Wie geöffnet</translation>
    </message>
    <message>
        <source>Edit</source>
        <translation>Änderung</translation>
    </message>
    <message>
        <source>List of edits</source>
        <translation>Liste der Änderungen</translation>
    </message>
    <message>
        <source>Enter goes back, or forward, to the marked step.</source>
        <translation>Eingabe geht zurück, oder vor, zum markierten Schritt.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::FeaturesDialog</name>
    <message>
        <source>Column</source>
        <translation>Spalte</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>Copy</source>
        <translation>Kopieren</translation>
    </message>
    <message>
        <source>Show on the map</source>
        <translation>Auf der Karte zeigen</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::FindingsPanel</name>
    <message>
        <source>Error</source>
        <translation>Fehler</translation>
    </message>
    <message>
        <source>Doubt</source>
        <translation>Zweifel</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Hinweis</translation>
    </message>
    <message>
        <source>Findings</source>
        <translation>Befunde</translation>
    </message>
    <message>
        <source>Take repair</source>
        <translation>Vorschlag annehmen</translation>
    </message>
    <message>
        <source>Leave</source>
        <translation>Belassen</translation>
    </message>
    <message>
        <source>1 error</source>
        <translation>1 Fehler</translation>
    </message>
    <message>
        <source>%1 errors</source>
        <translation>%1 Fehler</translation>
    </message>
    <message>
        <source>1 doubt</source>
        <translation>1 Zweifel</translation>
    </message>
    <message>
        <source>%1 doubts</source>
        <translation>%1 Zweifel</translation>
    </message>
    <message>
        <source>1 note</source>
        <translation>1 Hinweis</translation>
    </message>
    <message>
        <source>%1 notes</source>
        <translation>%1 Hinweise</translation>
    </message>
    <message>
        <source>Looking for faults …</source>
        <translation>Fehler werden gesucht …</translation>
    </message>
    <message>
        <source>Nothing to check yet. Faults appear here while you draw.</source>
        <translation>Noch nichts zu prüfen. Fehler erscheinen hier, während Sie zeichnen.</translation>
    </message>
    <message>
        <source>Nothing found.</source>
        <translation>Nichts gefunden.</translation>
    </message>
    <message>
        <source>%1, as the map shows it.</source>
        <translation>%1, wie die Karte es zeigt.</translation>
    </message>
    <message>
        <source>&amp;Show its place</source>
        <translation>&amp;Ort zeigen</translation>
    </message>
    <message>
        <source>&amp;Edit what it is about</source>
        <translation>&amp;Bearbeiten, worum es geht</translation>
    </message>
    <message>
        <source>&amp;Take repair: %1</source>
        <translation>Reparatur &amp;annehmen: %1</translation>
    </message>
    <message>
        <source>&amp;Copy its words</source>
        <translation>Text &amp;kopieren</translation>
    </message>
    <message>
        <source>Copy &amp;all</source>
        <translation>A&amp;lle kopieren</translation>
    </message>
    <message>
        <source>This is not found any more. Nothing was changed.</source>
        <translation>Dieser Befund besteht nicht mehr. Es wurde nichts geändert.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::FormGrid</name>
    <message>
        <source>%1, counted from</source>
        <translation>%1, gezählt ab</translation>
    </message>
    <message>
        <source>differ</source>
        <translation>verschieden</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::ImportDialog</name>
    <message>
        <source>Add reference layer</source>
        <translation>Referenzebene hinzufügen</translation>
    </message>
    <message>
        <source>Add layer</source>
        <translation>Ebene hinzufügen</translation>
    </message>
    <message>
        <source>Import fences</source>
        <translation>Zäune importieren</translation>
    </message>
    <message>
        <source>Import sites</source>
        <translation>Schutzobjekte importieren</translation>
    </message>
    <message>
        <source>Import homes</source>
        <translation>Rückkehrorte importieren</translation>
    </message>
    <message>
        <source>%1  (%2 features)</source>
        <translation>%1  (%2 Objekte)</translation>
    </message>
    <message>
        <source>Layer</source>
        <translation>Ebene</translation>
    </message>
    <message>
        <source>Coordinates</source>
        <translation>Koordinaten</translation>
    </message>
    <message>
        <source>Label column</source>
        <translation>Spalte der Beschriftung</translation>
    </message>
    <message>
        <source>Name column</source>
        <translation>Spalte des Namens</translation>
    </message>
    <message>
        <source>Parcel number</source>
        <translation>Flurstücksnummer</translation>
    </message>
    <message>
        <source>keep-out: stay outside</source>
        <translation>Sperrfläche: außen</translation>
    </message>
    <message>
        <source>keep-in: stay inside</source>
        <translation>Einsatzfläche: innen</translation>
    </message>
    <message>
        <source>Rule if not stated</source>
        <translation>Regel, wo keine steht</translation>
    </message>
    <message>
        <source>none; or 1/4 mi, 150 m …</source>
        <translation>keiner; oder 1/4 mi, 150 m …</translation>
    </message>
    <message>
        <source>Keep out within</source>
        <translation>Abstand halten von</translation>
    </message>
    <message>
        <source>all; or category = &apos;nest&apos;</source>
        <translation>alle; oder category = &apos;nest&apos;</translation>
    </message>
    <message>
        <source>Only where</source>
        <translation>Nur wo</translation>
    </message>
    <message>
        <source>%1, geometry: %2</source>
        <translation>%1, Geometrie: %2</translation>
    </message>
    <message>
        <source>The file does not say in which system its coordinates are. Ask whoever made it, and name the system here: EPSG:4326 is longitude and latitude.</source>
        <translation>Die Datei sagt nicht, in welchem System ihre Koordinaten sind. Fragen Sie, wer sie gemacht hat, und nennen Sie das System hier: EPSG:4326 ist Länge und Breite.</translation>
    </message>
    <message>
        <source>The file says: %1.</source>
        <translation>Die Datei sagt: %1.</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>There is no layer of places in this file.</source>
        <translation>In dieser Datei ist keine Ebene mit Orten.</translation>
    </message>
    <message>
        <source>Name the coordinate system to go on.</source>
        <translation>Nennen Sie das Koordinatensystem, um fortzufahren.</translation>
    </message>
    <message>
        <source>That is %1.</source>
        <translation>Das ist %1.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::ImportFlow</name>
    <message>
        <source>Import fences</source>
        <translation>Zäune importieren</translation>
    </message>
    <message>
        <source>Import sites</source>
        <translation>Schutzobjekte importieren</translation>
    </message>
    <message>
        <source>Import homes</source>
        <translation>Rückkehrorte importieren</translation>
    </message>
    <message>
        <source>Importing %1</source>
        <translation>%1 wird importiert</translation>
    </message>
    <message>
        <source>%1 fences added</source>
        <translation>%1 Zäune hinzugefügt</translation>
    </message>
    <message>
        <source>%1 sites added</source>
        <translation>%1 Schutzobjekte hinzugefügt</translation>
    </message>
    <message>
        <source>%1 sites added, each with a setback</source>
        <translation>%1 Schutzobjekte hinzugefügt, jedes mit Abstandsfläche</translation>
    </message>
    <message>
        <source>%1 homes added</source>
        <translation>%1 Rückkehrorte hinzugefügt</translation>
    </message>
    <message>
        <source>Nothing was added</source>
        <translation>Nichts wurde hinzugefügt</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::KeyBook</name>
    <message>
        <source>%1 (%2)</source>
        <translation>%1 (%2)</translation>
    </message>
    <message>
        <source>On the map</source>
        <translation>Auf der Karte</translation>
    </message>
    <message>
        <source>On the calendar</source>
        <translation>Im Kalender</translation>
    </message>
    <message>
        <source>In the ledger</source>
        <translation>Im Verzeichnis</translation>
    </message>
    <message>
        <source>Enter</source>
        <translation>Eingabe</translation>
    </message>
    <message>
        <source>Finish what is being drawn</source>
        <translation>Beenden, was gezeichnet wird</translation>
    </message>
    <message>
        <source>Esc</source>
        <translation>Esc</translation>
    </message>
    <message>
        <source>Step back; once more: back to selecting</source>
        <translation>Einen Schritt zurück; noch einmal: zurück zum Auswählen</translation>
    </message>
    <message>
        <source>Space</source>
        <translation>Leertaste</translation>
    </message>
    <message>
        <source>Click at the cross in the middle of the map; held: drag the map with any tool</source>
        <translation>Klick am Kreuz in der Kartenmitte; gehalten: die Karte mit jedem Werkzeug ziehen</translation>
    </message>
    <message>
        <source>Nearer, farther</source>
        <translation>Näher, ferner</translation>
    </message>
    <message>
        <source>Type a distance and a bearing</source>
        <translation>Entfernung und Richtung tippen</translation>
    </message>
    <message>
        <source>Shift</source>
        <translation>Umschalt</translation>
    </message>
    <message>
        <source>While drawing: keep to whole angles; while dragging the map: turn it</source>
        <translation>Beim Zeichnen: bei ganzen Winkeln bleiben; beim Ziehen der Karte: sie drehen</translation>
    </message>
    <message>
        <source>Alt or Ctrl</source>
        <translation>Alt oder Strg</translation>
    </message>
    <message>
        <source>While drawing: snap to nothing</source>
        <translation>Beim Zeichnen: nirgends einrasten</translation>
    </message>
    <message>
        <source>Left, right</source>
        <translation>Links, rechts</translation>
    </message>
    <message>
        <source>A day; with Shift a week</source>
        <translation>Ein Tag; mit Umschalt eine Woche</translation>
    </message>
    <message>
        <source>Page keys</source>
        <translation>Bild auf, Bild ab</translation>
    </message>
    <message>
        <source>A month; with Shift a year</source>
        <translation>Ein Monat; mit Umschalt ein Jahr</translation>
    </message>
    <message>
        <source>Home, End</source>
        <translation>Pos1, Ende</translation>
    </message>
    <message>
        <source>First and last day of the year</source>
        <translation>Erster und letzter Tag des Jahres</translation>
    </message>
    <message>
        <source>Show or hide a source</source>
        <translation>Eine Quelle zeigen oder verbergen</translation>
    </message>
    <message>
        <source>Alt with up, down</source>
        <translation>Alt mit auf, ab</translation>
    </message>
    <message>
        <source>Move a source above or below another</source>
        <translation>Eine Quelle über oder unter eine andere schieben</translation>
    </message>
    <message>
        <source>Alt with the mouse</source>
        <translation>Alt mit der Maus</translation>
    </message>
    <message>
        <source>Drag an edge parallel to itself</source>
        <translation>Eine Kante parallel verschieben</translation>
    </message>
    <message>
        <source>It stays: forms, dialogs and lists end with the same key, and the way out is never lost.</source>
        <translation>Bleibt so: Formulare, Dialoge und Listen enden mit derselben Taste, und der Ausweg geht nie verloren.</translation>
    </message>
    <message>
        <source>It stays: Space presses what has the focus in every part of the window.</source>
        <translation>Bleibt so: Die Leertaste drückt in jedem Teil des Fensters, was den Fokus hat.</translation>
    </message>
    <message>
        <source>It stays: it is held together with the mouse, or is the mouse itself.</source>
        <translation>Bleibt so: Sie wird zusammen mit der Maus gehalten, oder es ist die Maus selbst.</translation>
    </message>
    <message>
        <source>It stays: what is typed on the map begins with it.</source>
        <translation>Bleibt so: Was auf der Karte getippt wird, beginnt damit.</translation>
    </message>
    <message>
        <source>It stays: lists and calendars have it everywhere.</source>
        <translation>Bleibt so: Listen und Kalender haben sie überall.</translation>
    </message>
    <message>
        <source>Digits, point and &lt;</source>
        <translation>Ziffern, Punkt und &lt;</translation>
    </message>
    <message>
        <source>Wheel</source>
        <translation>Mausrad</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::KeyField</name>
    <message>
        <source>Press the new key</source>
        <translation>Drücken Sie die neue Taste</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::KeysDialog</name>
    <message>
        <source>What it does</source>
        <translation>Was sie tut</translation>
    </message>
    <message>
        <source>Key</source>
        <translation>Taste</translation>
    </message>
    <message>
        <source>Where</source>
        <translation>Wo</translation>
    </message>
    <message>
        <source>Changed by you</source>
        <translation>Von Ihnen geändert</translation>
    </message>
    <message>
        <source>No key</source>
        <translation>Keine Taste</translation>
    </message>
    <message>
        <source>As given</source>
        <translation>Wie vorgegeben</translation>
    </message>
    <message>
        <source>All as given</source>
        <translation>Alle wie vorgegeben</translation>
    </message>
    <message>
        <source>Leave it</source>
        <translation>So belassen</translation>
    </message>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>Look for a command, a menu or a key</source>
        <translation>Suchen Sie nach einem Befehl, einem Menü oder einer Taste</translation>
    </message>
    <message>
        <source>Look through the keys</source>
        <translation>In den Tasten suchen</translation>
    </message>
    <message>
        <source>The key of the marked command</source>
        <translation>Die Taste des markierten Befehls</translation>
    </message>
    <message>
        <source>Press the new key. Tab leaves this field.</source>
        <translation>Drücken Sie die neue Taste. Tab verlässt dieses Feld.</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>Nothing of that name</source>
        <translation>Nichts mit diesem Namen</translation>
    </message>
    <message>
        <source>%1 stays with “%2” (%3). Press another.</source>
        <translation>%1 bleibt bei „%2“ (%3). Drücken Sie eine andere.</translation>
    </message>
    <message>
        <source>“%1”</source>
        <translation>„%1“</translation>
    </message>
    <message>
        <source>%1 is the key of %2.</source>
        <translation>%1 ist die Taste von %2.</translation>
    </message>
    <message>
        <source> and </source>
        <translation> und </translation>
    </message>
    <message>
        <source>Take it from there</source>
        <translation>Von dort nehmen</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::LedgerModel</name>
    <message>
        <source>%1 in force on %2</source>
        <translation>%1 in Kraft am %2</translation>
    </message>
    <message>
        <source>%1 sites, %2 confidential</source>
        <translation>%1 Schutzobjekte, %2 vertraulich</translation>
    </message>
    <message>
        <source>%1 sites</source>
        <translation>%1 Schutzobjekte</translation>
    </message>
    <message>
        <source>1 place to land</source>
        <translation>1 Ort zum Landen</translation>
    </message>
    <message>
        <source>%1 places to land</source>
        <translation>%1 Orte zum Landen</translation>
    </message>
    <message>
        <source>the topmost first</source>
        <translation>die oberste zuerst</translation>
    </message>
    <message>
        <source>computing…</source>
        <translation>wird berechnet…</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>%1
Basis: %2
Season: %3</source>
        <translation>%1
Grundlage: %2
Jahreszeit: %3</translation>
    </message>
    <message>
        <source>none given</source>
        <translation>keine angegeben</translation>
    </message>
    <message>
        <source>the whole year</source>
        <translation>das ganze Jahr</translation>
    </message>
    <message>
        <source>Switched off</source>
        <translation>Ausgeschaltet</translation>
    </message>
    <message>
        <source>%1
Confidential</source>
        <translation>%1
Vertraulich</translation>
    </message>
    <message>
        <source>alternate</source>
        <translation>Ausweichort</translation>
    </message>
    <message>
        <source>home</source>
        <translation>Rückkehrort</translation>
    </message>
    <message>
        <source>shown</source>
        <translation>gezeigt</translation>
    </message>
    <message>
        <source>hidden</source>
        <translation>verborgen</translation>
    </message>
    <message>
        <source>reading…</source>
        <translation>wird gelesen…</translation>
    </message>
    <message>
        <source>missing</source>
        <translation>fehlt</translation>
    </message>
    <message>
        <source>keep-in</source>
        <translation>Einsatzfläche</translation>
    </message>
    <message>
        <source>keep-out</source>
        <translation>Sperrfläche</translation>
    </message>
    <message>
        <source>not in force</source>
        <translation>nicht in Kraft</translation>
    </message>
    <message>
        <source>has an error</source>
        <translation>hat einen Fehler</translation>
    </message>
    <message>
        <source>has a finding</source>
        <translation>hat einen Befund</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Band</source>
        <translation>Höhen</translation>
    </message>
    <message>
        <source>Area</source>
        <translation>Fläche</translation>
    </message>
    <message>
        <source>Kind of site</source>
        <translation>Art des Objekts</translation>
    </message>
    <message>
        <source>Error</source>
        <translation>Fehler</translation>
    </message>
    <message>
        <source>Kind</source>
        <translation>Art</translation>
    </message>
    <message>
        <source>Radius</source>
        <translation>Radius</translation>
    </message>
    <message>
        <source>Captured</source>
        <translation>Aufgenommen</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Zustand</translation>
    </message>
    <message>
        <source>Locked</source>
        <translation>Fixiert</translation>
    </message>
    <message>
        <source>locked</source>
        <translation>fixiert</translation>
    </message>
    <message>
        <source>refused</source>
        <translation>abgewiesen</translation>
    </message>
    <message>
        <source>damaged</source>
        <translation>beschädigt</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::LedgerPanel</name>
    <message>
        <source>Fences</source>
        <translation>Zäune</translation>
    </message>
    <message>
        <source>Sites</source>
        <translation>Objekte</translation>
    </message>
    <message>
        <source>Homes</source>
        <translation>Rückkehr</translation>
    </message>
    <message>
        <source>Sources</source>
        <translation>Quellen</translation>
    </message>
    <message>
        <source>Ledger</source>
        <translation>Verzeichnis</translation>
    </message>
    <message>
        <source>No fences yet. Draw one with a tool at the left, pick parcels, or import a fence set.</source>
        <translation>Noch keine Zäune. Zeichnen Sie einen mit einem Werkzeug links, wählen Sie Flurstücke, oder importieren Sie einen Zaunsatz.</translation>
    </message>
    <message>
        <source>No sites yet. A site is what a fence protects: a nest, a school, a store. Mark one on the map or import a list.</source>
        <translation>Noch keine Schutzobjekte. Ein Objekt ist, was ein Zaun schützt: ein Nest, eine Schule, ein Lager. Setzen Sie eines auf die Karte, oder importieren Sie eine Liste.</translation>
    </message>
    <message>
        <source>No home yet. Mark on the map where the aircraft starts and returns.</source>
        <translation>Noch kein Rückkehrort. Setzen Sie auf die Karte, wo das Fluggerät startet und zurückkehrt.</translation>
    </message>
    <message>
        <source>No imagery and no reference layer yet. Add them from the Sources menu.</source>
        <translation>Noch kein Luftbild und keine Referenzebene. Fügen Sie sie über das Menü Quellen hinzu.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::LowerPages</name>
    <message>
        <source>Findings</source>
        <translation>Befunde</translation>
    </message>
    <message>
        <source>Edits</source>
        <translation>Änderungen</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::MainWindow</name>
    <message>
        <source>Map</source>
        <translation>Karte</translation>
    </message>
    <message>
        <source>What is here?</source>
        <translation>Was ist hier?</translation>
    </message>
    <message>
        <source>Copy %1</source>
        <translation>%1 kopieren</translation>
    </message>
    <message>
        <source>Show or hide %1</source>
        <translation>%1 zeigen oder verbergen</translation>
    </message>
    <message>
        <source>The sample is not there.</source>
        <translation>Das Beispiel ist nicht da.</translation>
    </message>
    <message>
        <source>Build the target &quot;samples&quot; to make it.</source>
        <translation>Bauen Sie das Ziel „samples“, um es zu erzeugen.</translation>
    </message>
    <message>
        <source>The language changes when Fencewright is started again.</source>
        <translation>Die Sprache ändert sich, wenn Fencewright neu gestartet wird.</translation>
    </message>
    <message>
        <source>About</source>
        <translation>Über</translation>
    </message>
    <message>
        <source>Forget these</source>
        <translation>Diese vergessen</translation>
    </message>
    <message>
        <source>None yet</source>
        <translation>Noch keine</translation>
    </message>
    <message>
        <source>Tool: %1.</source>
        <translation>Werkzeug: %1.</translation>
    </message>
    <message>
        <source>Nothing is chosen.</source>
        <translation>Nichts ist ausgewählt.</translation>
    </message>
    <message>
        <source>Chosen: %1.</source>
        <translation>Ausgewählt: %1.</translation>
    </message>
    <message>
        <source>not yet saved</source>
        <translation>noch nicht gespeichert</translation>
    </message>
    <message>
        <source>changed, not yet saved</source>
        <translation>ungespeichert</translation>
    </message>
    <message>
        <source>read-only</source>
        <translation>schreibgeschützt</translation>
    </message>
    <message>
        <source>%1 – Fencewright</source>
        <translation>%1 – Fencewright</translation>
    </message>
    <message>
        <source>Go to %1</source>
        <translation>Zu %1 gehen</translation>
    </message>
    <message>
        <source>place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>Show the set on %1</source>
        <translation>Den Satz am %1 zeigen</translation>
    </message>
    <message>
        <source>day</source>
        <translation>Tag</translation>
    </message>
    <message>
        <source>%1 ✓</source>
        <translation>%1 ✓</translation>
    </message>
    <message>
        <source>%1, not now</source>
        <translation>%1, jetzt nicht</translation>
    </message>
    <message>
        <source>fence</source>
        <translation>Zaun</translation>
    </message>
    <message>
        <source>site</source>
        <translation>Schutzobjekt</translation>
    </message>
    <message>
        <source>home</source>
        <translation>Rückkehrort</translation>
    </message>
    <message>
        <source>Parcel %1</source>
        <translation>Flurstück %1</translation>
    </message>
    <message>
        <source>Show what is written about it</source>
        <translation>Zeigen, was darüber geschrieben steht</translation>
    </message>
    <message>
        <source>List all %1</source>
        <translation>Alle %1 auflisten</translation>
    </message>
    <message>
        <source>List the first %1</source>
        <translation>Die ersten %1 auflisten</translation>
    </message>
    <message>
        <source>Found</source>
        <translation>Gefunden</translation>
    </message>
    <message>
        <source>No reference layer that is shown has anything at %1.</source>
        <translation>Keine gezeigte Referenzebene hat etwas bei %1.</translation>
    </message>
    <message>
        <source>What is here</source>
        <translation>Was ist hier</translation>
    </message>
    <message>
        <source>Hide</source>
        <translation>Verbergen</translation>
    </message>
    <message>
        <source>Show</source>
        <translation>Zeigen</translation>
    </message>
    <message>
        <source>%1, and %2 more</source>
        <translation>%1, und %2 weitere</translation>
    </message>
    <message>
        <source>Edit</source>
        <translation>Bearbeiten</translation>
    </message>
    <message>
        <source>Shape</source>
        <translation>Form</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::MapCanvas</name>
    <message>
        <source>Map</source>
        <translation>Karte</translation>
    </message>
    <message>
        <source>True north. Double click: north up</source>
        <translation>Geografisch Nord. Doppelklick: Norden nach oben</translation>
    </message>
    <message>
        <source>The map is %1 across, about %2, north up.</source>
        <translation>Die Karte ist %1 breit, um %2, Norden oben.</translation>
    </message>
    <message>
        <source>The map is %1 across, about %2, with %3° up.</source>
        <translation>Die Karte ist %1 breit, um %2, oben ist %3°.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::MapPainter</name>
    <message>
        <source>as it would be</source>
        <translation>wie es wäre</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::MarginDialog</name>
    <message>
        <source>State the margin</source>
        <translation>Sicherheitsabstand angeben</translation>
    </message>
    <message>
        <source>Margin</source>
        <translation>Sicherheitsabstand</translation>
    </message>
    <message>
        <source>How far the aircraft keeps from every boundary, and why</source>
        <translation>Wie weit das Fluggerät von jeder Grenze entfernt bleibt, und warum</translation>
    </message>
    <message>
        <source>Position error</source>
        <translation>Ortsfehler</translation>
    </message>
    <message>
        <source>Fastest over the ground, with the wind</source>
        <translation>Höchste Geschwindigkeit über Grund, mit dem Wind</translation>
    </message>
    <message>
        <source>Reaction, until it brakes</source>
        <translation>Reaktion, bis es bremst</translation>
    </message>
    <message>
        <source>Deceleration, the least</source>
        <translation>Verzögerung, die geringste</translation>
    </message>
    <message>
        <source>Further allowance, for gusts</source>
        <translation>Weiterer Zuschlag, für Böen</translation>
    </message>
    <message>
        <source>Where the figures come from</source>
        <translation>Woher die Angaben stammen</translation>
    </message>
    <message>
        <source>Manual, test flight, judgement: which, and whose</source>
        <translation>Handbuch, Probeflug, Einschätzung: welche, und wessen</translation>
    </message>
    <message>
        <source>Take the margin back</source>
        <translation>Sicherheitsabstand zurücknehmen</translation>
    </message>
    <message>
        <source>Type the figures of the aircraft, each with its unit.</source>
        <translation>Geben Sie die Werte des Fluggeräts ein, jeden mit seiner Einheit.</translation>
    </message>
    <message>
        <source>Position error %1, reaction %2, braking %3, allowance %4: the aircraft keeps %5 (%6) from every boundary.</source>
        <translation>Ortsfehler %1, Reaktion %2, Bremsen %3, Zuschlag %4: Das Fluggerät bleibt %5 (%6) von jeder Grenze entfernt.</translation>
    </message>
    <message>
        <source>Say where the figures come from.</source>
        <translation>Sagen Sie, woher die Angaben stammen.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::MessageBar</name>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>Close this message</source>
        <translation>Diese Meldung schließen</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::OffsetDialog</name>
    <message>
        <source>Make the copy</source>
        <translation>Kopie machen</translation>
    </message>
    <message>
        <source>Copy at a distance</source>
        <translation>Im Abstand kopieren</translation>
    </message>
    <message>
        <source>A copy of %1, at the same distance all round</source>
        <translation>Eine Kopie von %1 in ringsum gleichem Abstand</translation>
    </message>
    <message>
        <source>Distance along the ground</source>
        <translation>Entfernung am Boden</translation>
    </message>
    <message>
        <source>Side</source>
        <translation>Seite</translation>
    </message>
    <message>
        <source>outside of it</source>
        <translation>außerhalb</translation>
    </message>
    <message>
        <source>inside of it</source>
        <translation>innerhalb</translation>
    </message>
    <message>
        <source>The copy is</source>
        <translation>Die Kopie ist</translation>
    </message>
    <message>
        <source>a keep-in</source>
        <translation>eine Einsatzfläche</translation>
    </message>
    <message>
        <source>a keep-out</source>
        <translation>eine Sperrfläche</translation>
    </message>
    <message>
        <source>Type a distance in any unit.</source>
        <translation>Geben Sie eine Entfernung in beliebiger Einheit ein.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::PastedCornersDialog</name>
    <message>
        <source>Take them</source>
        <translation>Übernehmen</translation>
    </message>
    <message>
        <source>Pasted corners</source>
        <translation>Eingefügte Ecken</translation>
    </message>
    <message>
        <source>One corner was read.</source>
        <translation>Eine Ecke wurde gelesen.</translation>
    </message>
    <message>
        <source>%1 corners were read.</source>
        <translation>%1 Ecken wurden gelesen.</translation>
    </message>
    <message>
        <source>Two numbers a row, of which some are beyond 90:</source>
        <translation>Zwei Zahlen je Zeile, von denen manche über 90 liegen:</translation>
    </message>
    <message>
        <source>Two numbers a row do not say which is which. Their order is:</source>
        <translation>Zwei Zahlen je Zeile sagen nicht, welche welche ist. Ihre Reihenfolge ist:</translation>
    </message>
    <message>
        <source>latitude, then longitude</source>
        <translation>Breite, dann Länge</translation>
    </message>
    <message>
        <source>longitude, then latitude</source>
        <translation>Länge, dann Breite</translation>
    </message>
    <message>
        <source>Choose the order of the numbers first.</source>
        <translation>Wählen Sie zuerst die Reihenfolge der Zahlen.</translation>
    </message>
    <message>
        <source>It is %1.</source>
        <translation>Sie ist %1.</translation>
    </message>
    <message>
        <source>The first is %1, the last %2.</source>
        <translation>Die erste ist %1, die letzte %2.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::RecordPanel</name>
    <message>
        <source>drawn</source>
        <translation>gezeichnet</translation>
    </message>
    <message>
        <source>circle</source>
        <translation>Kreis</translation>
    </message>
    <message>
        <source>corridor</source>
        <translation>Korridor</translation>
    </message>
    <message>
        <source>setback of a site</source>
        <translation>Abstand zu einem Objekt</translation>
    </message>
    <message>
        <source>union of parcels</source>
        <translation>Flurstücke</translation>
    </message>
    <message>
        <source>several pieces</source>
        <translation>mehrere Stücke</translation>
    </message>
    <message>
        <source>Show</source>
        <translation>Zeigen</translation>
    </message>
    <message>
        <source>Raise</source>
        <translation>Höher</translation>
    </message>
    <message>
        <source>Lower</source>
        <translation>Tiefer</translation>
    </message>
    <message>
        <source>Locate…</source>
        <translation>Suchen…</translation>
    </message>
    <message>
        <source>Connect…</source>
        <translation>Verbinden…</translation>
    </message>
    <message>
        <source>Read again</source>
        <translation>Neu lesen</translation>
    </message>
    <message>
        <source>Delete</source>
        <translation>Löschen</translation>
    </message>
    <message>
        <source>keep-in</source>
        <translation>Einsatzfläche</translation>
    </message>
    <message>
        <source>keep-out</source>
        <translation>Sperrfläche</translation>
    </message>
    <message>
        <source>site</source>
        <translation>Schutzobjekt</translation>
    </message>
    <message>
        <source>home</source>
        <translation>Rückkehrort</translation>
    </message>
    <message>
        <source>alternate</source>
        <translation>Ausweichort</translation>
    </message>
    <message>
        <source>imagery</source>
        <translation>Luftbild</translation>
    </message>
    <message>
        <source>reference layer</source>
        <translation>Referenzebene</translation>
    </message>
    <message>
        <source>Choose a row above, or click on the map, to see and type its numbers.</source>
        <translation>Wählen Sie oben eine Zeile, oder klicken Sie auf die Karte, um Zahlen zu sehen und zu tippen.</translation>
    </message>
    <message>
        <source>Remove</source>
        <translation>Entfernen</translation>
    </message>
    <message>
        <source>1 fence</source>
        <translation>1 Zaun</translation>
    </message>
    <message numerus="yes">
        <source>%n fences</source>
        <translation>
            <numerusform>%n Zaun</numerusform>
            <numerusform>%n Zäune</numerusform>
        </translation>
    </message>
    <message>
        <source>1 site</source>
        <translation>1 Schutzobjekt</translation>
    </message>
    <message numerus="yes">
        <source>%n sites</source>
        <translation>
            <numerusform>%n Schutzobjekt</numerusform>
            <numerusform>%n Schutzobjekte</numerusform>
        </translation>
    </message>
    <message>
        <source>1 home</source>
        <translation>1 Rückkehrort</translation>
    </message>
    <message numerus="yes">
        <source>%n homes</source>
        <translation>
            <numerusform>%n Rückkehrort</numerusform>
            <numerusform>%n Rückkehrorte</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n selected</source>
        <translation>
            <numerusform>%n ausgewählt</numerusform>
            <numerusform>%n ausgewählt</numerusform>
        </translation>
    </message>
    <message>
        <source>Table…</source>
        <translation>Tabelle…</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::RecoveryDialog</name>
    <message>
        <source>Unsaved work</source>
        <translation>Nicht gespeicherte Arbeit</translation>
    </message>
    <message>
        <source>The program ended with unsaved work</source>
        <translation>Das Programm endete mit nicht gespeicherter Arbeit</translation>
    </message>
    <message>
        <source>A copy of it was kept. Recover it, look at it, and save it where you want it.</source>
        <translation>Eine Kopie davon wurde aufbewahrt. Stellen Sie sie wieder her, sehen Sie sie an, und speichern Sie sie, wo Sie möchten.</translation>
    </message>
    <message>
        <source>Document</source>
        <translation>Dokument</translation>
    </message>
    <message>
        <source>Copy written</source>
        <translation>Kopie geschrieben</translation>
    </message>
    <message>
        <source>never saved</source>
        <translation>nie gespeichert</translation>
    </message>
    <message>
        <source>Throw away</source>
        <translation>Wegwerfen</translation>
    </message>
    <message>
        <source>Decide later</source>
        <translation>Später entscheiden</translation>
    </message>
    <message>
        <source>Recover</source>
        <translation>Wiederherstellen</translation>
    </message>
    <message>
        <source>Throw this copy away? The unsaved work in it cannot be brought back.</source>
        <translation>Diese Kopie wegwerfen? Die nicht gespeicherte Arbeit darin ist nicht zurückzubringen.</translation>
    </message>
    <message>
        <source>Keep it</source>
        <translation>Behalten</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::ReferenceLayer</name>
    <message>
        <source>Parcel %1</source>
        <translation>Flurstück %1</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::SelectWhereDialog</name>
    <message>
        <source>Choose these</source>
        <translation>Diese auswählen</translation>
    </message>
    <message>
        <source>Choose where</source>
        <translation>Auswählen, wo</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>anything</source>
        <translation>alles</translation>
    </message>
    <message>
        <source>fences</source>
        <translation>Zäune</translation>
    </message>
    <message>
        <source>keep-ins</source>
        <translation>Einsatzflächen</translation>
    </message>
    <message>
        <source>keep-outs</source>
        <translation>Sperrflächen</translation>
    </message>
    <message>
        <source>sites</source>
        <translation>Schutzobjekte</translation>
    </message>
    <message>
        <source>homes</source>
        <translation>Rückkehrorte</translation>
    </message>
    <message>
        <source>alternates</source>
        <translation>Ausweichorte</translation>
    </message>
    <message>
        <source>Name has</source>
        <translation>Name enthält</translation>
    </message>
    <message>
        <source>any part of it</source>
        <translation>ein Teil davon</translation>
    </message>
    <message>
        <source>Basis has</source>
        <translation>Grundlage enthält</translation>
    </message>
    <message>
        <source>citation, office, kind of site</source>
        <translation>Fundstelle, Stelle, Art des Objekts</translation>
    </message>
    <message>
        <source>Switch</source>
        <translation>Schalter</translation>
    </message>
    <message>
        <source>either</source>
        <translation>egal</translation>
    </message>
    <message>
        <source>on</source>
        <translation>ein</translation>
    </message>
    <message>
        <source>off</source>
        <translation>aus</translation>
    </message>
    <message>
        <source>On %1</source>
        <translation>Am %1</translation>
    </message>
    <message>
        <source>in force</source>
        <translation>in Kraft</translation>
    </message>
    <message>
        <source>not in force</source>
        <translation>nicht in Kraft</translation>
    </message>
    <message>
        <source>Findings</source>
        <translation>Befunde</translation>
    </message>
    <message>
        <source>with or without</source>
        <translation>mit oder ohne</translation>
    </message>
    <message>
        <source>any</source>
        <translation>beliebige</translation>
    </message>
    <message>
        <source>doubts and errors</source>
        <translation>Zweifel und Fehler</translation>
    </message>
    <message>
        <source>errors</source>
        <translation>nur Fehler</translation>
    </message>
    <message>
        <source>Nothing is like that.</source>
        <translation>Nichts ist so.</translation>
    </message>
    <message>
        <source>One is like that.</source>
        <translation>Eines ist so.</translation>
    </message>
    <message>
        <source>%1 are like that.</source>
        <translation>%1 sind so.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::SelectionFlow</name>
    <message>
        <source>%1: one thing, as GeoJSON text.</source>
        <translation>%1: ein Ding, als GeoJSON-Text.</translation>
    </message>
    <message>
        <source>%1: %2 things, as GeoJSON text.</source>
        <translation>%1: %2 Dinge, als GeoJSON-Text.</translation>
    </message>
    <message>
        <source>A confidential site is among them, with its name and place.</source>
        <translation>Ein vertrauliches Objekt ist dabei, mit Namen und Ort.</translation>
    </message>
    <message>
        <source>%1 confidential sites are among them, with their names and places.</source>
        <translation>%1 vertrauliche Objekte sind dabei, mit Namen und Orten.</translation>
    </message>
    <message>
        <source>Copied</source>
        <translation>Kopiert</translation>
    </message>
    <message>
        <source>Cut</source>
        <translation>Ausgeschnitten</translation>
    </message>
    <message>
        <source>Pasted one thing.</source>
        <translation>Ein Ding eingefügt.</translation>
    </message>
    <message>
        <source>Pasted %1 things.</source>
        <translation>%1 Dinge eingefügt.</translation>
    </message>
    <message>
        <source>Of another program&apos;s text, areas became keep-outs, and places and lines sites.</source>
        <translation>Aus dem Text eines anderen Programms wurden Flächen zu Sperrflächen, Orte und Linien zu Schutzobjekten.</translation>
    </message>
    <message>
        <source>%1 open rings were taken as closed.</source>
        <translation>%1 offene Ringe wurden als geschlossen genommen.</translation>
    </message>
    <message>
        <source>Heights were left out.</source>
        <translation>Höhen wurden weggelassen.</translation>
    </message>
    <message>
        <source>%1 features had no geometry.</source>
        <translation>%1 Objekte hatten keine Geometrie.</translation>
    </message>
    <message>
        <source>An edge over 180 degrees of longitude long was taken the short way, across the antimeridian.</source>
        <translation>Eine Kante von über 180 Längengraden wurde auf dem kurzen Weg genommen, über den 180. Meridian.</translation>
    </message>
    <message numerus="yes">
        <source>%n things</source>
        <translation>
            <numerusform>%n Ding</numerusform>
            <numerusform>%n Dinge</numerusform>
        </translation>
    </message>
    <message>
        <source>Lock %1</source>
        <translation>%1 fixieren</translation>
    </message>
    <message>
        <source>Unlock %1</source>
        <translation>%1 lösen</translation>
    </message>
    <message>
        <source>Copying what is selected</source>
        <translation>Kopiere die Auswahl</translation>
    </message>
    <message>
        <source>Copied only: the set was changed meanwhile, so nothing was taken away.</source>
        <translation>Nur kopiert: Der Satz wurde inzwischen geändert, darum wurde nichts entfernt.</translation>
    </message>
    <message>
        <source>Reading what is pasted</source>
        <translation>Lese, was eingefügt wird</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::ServerDialog</name>
    <message>
        <source>Ask the server</source>
        <translation>Server fragen</translation>
    </message>
    <message>
        <source>Style</source>
        <translation>Stil</translation>
    </message>
    <message>
        <source>Grid of tiles</source>
        <translation>Kachelgitter</translation>
    </message>
    <message>
        <source>Deepest zoom</source>
        <translation>Tiefste Zoomstufe</translation>
    </message>
    <message>
        <source>Add imagery</source>
        <translation>Luftbild hinzufügen</translation>
    </message>
    <message>
        <source>Add imagery from a server</source>
        <translation>Luftbild von einem Server hinzufügen</translation>
    </message>
    <message>
        <source>Address</source>
        <translation>Adresse</translation>
    </message>
    <message>
        <source>Tiles: the address of one, with {z} for the zoom, {x} for the column and {y} for the row; {-y} where rows count from the south. Web Map Tile Service: the address of the service or of its capabilities. {key} where a key belongs.</source>
        <translation>Kacheln: die Adresse von einer, mit {z} für die Zoomstufe, {x} für die Spalte und {y} für die Zeile; {-y}, wo Zeilen von Süden zählen. Web Map Tile Service: die Adresse des Dienstes oder seiner Capabilities. {key}, wo ein Schlüssel hingehört.</translation>
    </message>
    <message>
        <source>Layers</source>
        <translation>Ebenen</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Imagery of a server may be years old and lie metres beside its true place; when it was taken is not known unless its owner says so. Compare it with something that was measured. Tiles are kept on this computer for a week, or as long as the server says, in at most 1 GB.</source>
        <translation>Luftbilder eines Servers können Jahre alt sein und Meter neben ihrem wahren Ort liegen; wann sie aufgenommen wurden, ist nicht bekannt, wenn ihr Eigentümer es nicht sagt. Vergleichen Sie sie mit etwas Vermessenem. Kacheln werden eine Woche auf diesem Rechner aufbewahrt, oder so lange der Server es sagt, in höchstens 1 GB.</translation>
    </message>
    <message>
        <source>Asking %1 …</source>
        <translation>%1 wird gefragt …</translation>
    </message>
    <message>
        <source>Asking %1</source>
        <translation>%1 wird gefragt</translation>
    </message>
    <message>
        <source>The server answers with tiles.</source>
        <translation>Der Server antwortet mit Kacheln.</translation>
    </message>
    <message>
        <source>%1: layers: %2, of which can be shown: %3.</source>
        <translation>%1: Ebenen: %2, davon zeigbar: %3.</translation>
    </message>
    <message>
        <source>The service</source>
        <translation>Der Dienst</translation>
    </message>
    <message>
        <source>%1 (cannot be shown: %2)</source>
        <translation>%1 (kann nicht gezeigt werden: %2)</translation>
    </message>
    <message>
        <source>%1 (%2)</source>
        <translation>%1 (%2)</translation>
    </message>
    <message>
        <source>Its tiles come from another server, %1. Adding it means that this one is asked, too; it is told neither name nor password.</source>
        <translation>Die Kacheln kommen von einem anderen Server, %1. Wer das hinzufügt, lässt auch diesen fragen; ihm werden weder Name noch Passwort genannt.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::ShapeFields</name>
    <message>
        <source>Corners</source>
        <translation>Ecken</translation>
    </message>
    <message>
        <source>%1, and %2 holes</source>
        <translation>%1, und %2 Löcher</translation>
    </message>
    <message>
        <source>Radius</source>
        <translation>Radius</translation>
    </message>
    <message>
        <source>Change radius of %1</source>
        <translation>Radius von %1 ändern</translation>
    </message>
    <message>
        <source>Centre</source>
        <translation>Mitte</translation>
    </message>
    <message>
        <source>Move %1</source>
        <translation>%1 verschieben</translation>
    </message>
    <message>
        <source>Change width of %1</source>
        <translation>Breite von %1 ändern</translation>
    </message>
    <message>
        <source>Line</source>
        <translation>Linie</translation>
    </message>
    <message>
        <source>%1 corners, %2 long</source>
        <translation>%1 Ecken, %2 lang</translation>
    </message>
    <message>
        <source>%1 corners</source>
        <translation>%1 Ecken</translation>
    </message>
    <message>
        <source>Distance</source>
        <translation>Abstand</translation>
    </message>
    <message>
        <source>Change distance of %1</source>
        <translation>Abstand von %1 ändern</translation>
    </message>
    <message>
        <source>Position error</source>
        <translation>Ortsfehler</translation>
    </message>
    <message>
        <source>Change position error of %1</source>
        <translation>Ortsfehler von %1 ändern</translation>
    </message>
    <message>
        <source>Confidential: the site is not delivered</source>
        <translation>Vertraulich: Das Objekt wird nicht ausgeliefert</translation>
    </message>
    <message>
        <source>Change confidentiality of %1</source>
        <translation>Vertraulichkeit von %1 ändern</translation>
    </message>
    <message>
        <source>Close gaps up to</source>
        <translation>Lücken schließen bis</translation>
    </message>
    <message>
        <source>Change closing of %1</source>
        <translation>Lückenschluss von %1 ändern</translation>
    </message>
    <message>
        <source>Parcels</source>
        <translation>Flurstücke</translation>
    </message>
    <message>
        <source>Pieces</source>
        <translation>Stücke</translation>
    </message>
    <message>
        <source>without number</source>
        <translation>ohne Nummer</translation>
    </message>
    <message>
        <source>The corridor would have no width.</source>
        <translation>Der Korridor hätte keine Breite.</translation>
    </message>
    <message>
        <source>One side may be zero: change the other one first.</source>
        <translation>Eine Seite darf null sein: Ändern Sie zuerst die andere.</translation>
    </message>
    <message>
        <source>Left of the line</source>
        <translation>Links der Linie</translation>
    </message>
    <message>
        <source>Right of the line</source>
        <translation>Rechts der Linie</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::SourceFlow</name>
    <message>
        <source>All files (*)</source>
        <translation>Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Vector files</source>
        <translation>Vektordateien</translation>
    </message>
    <message>
        <source>Add imagery</source>
        <translation>Luftbild hinzufügen</translation>
    </message>
    <message>
        <source>Imagery</source>
        <translation>Luftbilder</translation>
    </message>
    <message>
        <source>Add a folder of imagery</source>
        <translation>Einen Ordner mit Luftbildern hinzufügen</translation>
    </message>
    <message>
        <source>Reading %1</source>
        <translation>%1 wird gelesen</translation>
    </message>
    <message>
        <source>This image does not say where it lies.</source>
        <translation>Dieses Bild sagt nicht, wo es liegt.</translation>
    </message>
    <message>
        <source>Use one with a world file or with its place inside.</source>
        <translation>Nehmen Sie eines mit einer World-Datei, oder mit seinem Ort darin.</translation>
    </message>
    <message>
        <source>Add %1</source>
        <translation>%1 hinzufügen</translation>
    </message>
    <message>
        <source>Which coordinates?</source>
        <translation>Welche Koordinaten?</translation>
    </message>
    <message>
        <source>%1 does not say in which system its coordinates are.
Ask whoever made it, and name the system here, for example EPSG:25829.</source>
        <translation>%1 sagt nicht, in welchem System seine Koordinaten sind.
Fragen Sie, wer es gemacht hat, und nennen Sie das System hier, zum Beispiel EPSG:25829.</translation>
    </message>
    <message>
        <source>Add reference layer</source>
        <translation>Referenzebene hinzufügen</translation>
    </message>
    <message>
        <source>%1 could not be read. %2</source>
        <translation>%1 konnte nicht gelesen werden. %2</translation>
    </message>
    <message>
        <source>%1: %2.</source>
        <translation>%1: %2.</translation>
    </message>
    <message>
        <source>Details</source>
        <translation>Einzelheiten</translation>
    </message>
    <message>
        <source>Reference layer</source>
        <translation>Referenzebene</translation>
    </message>
    <message>
        <source>Where is %1?</source>
        <translation>Wo ist %1?</translation>
    </message>
    <message>
        <source>Locate %1</source>
        <translation>%1 suchen</translation>
    </message>
    <message>
        <source>%1 is in the same folder.</source>
        <translation>%1 ist im selben Ordner.</translation>
    </message>
    <message>
        <source>%1 other missing files are in the same folder.</source>
        <translation>%1 weitere fehlende Dateien sind im selben Ordner.</translation>
    </message>
    <message>
        <source>Take them from there</source>
        <translation>Von dort nehmen</translation>
    </message>
    <message>
        <source>Locate %1 sources</source>
        <translation>%1 Quellen suchen</translation>
    </message>
    <message>
        <source>%1 was left out: it was meant for the document that was open before.</source>
        <translation>%1 wurde weggelassen: es war für das Dokument gedacht, das vorher offen war.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::StartPage</name>
    <message>
        <source>An empty fence set</source>
        <translation>Ein leerer Zaunsatz</translation>
    </message>
    <message>
        <source>Three ways to begin. The map takes the place of this page with the first of them.</source>
        <translation>Drei Wege zum Anfang. Mit dem ersten davon tritt die Karte an die Stelle dieser Seite.</translation>
    </message>
    <message>
        <source>Open the sample</source>
        <translation>Beispiel öffnen</translation>
    </message>
    <message>
        <source>Open a document…</source>
        <translation>Ein Dokument öffnen…</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::StatusLine</name>
    <message>
        <source>Cancel</source>
        <translation>Abbrechen</translation>
    </message>
    <message>
        <source>Up</source>
        <translation>Oben</translation>
    </message>
    <message>
        <source>True azimuth that is up on the map</source>
        <translation>Geografisches Azimut, das auf der Karte oben ist</translation>
    </message>
    <message>
        <source>The true azimuth that is up on the map. Type another, and Enter.</source>
        <translation>Das geografische Azimut, das auf der Karte oben ist. Tippen Sie ein anderes, und Eingabe.</translation>
    </message>
    <message>
        <source>Progress</source>
        <translation>Fortschritt</translation>
    </message>
    <message>
        <source>Point at the map to read coordinates</source>
        <translation>Zeigen Sie auf die Karte, um Koordinaten zu lesen</translation>
    </message>
    <message>
        <source>from home %1, %2°</source>
        <translation>vom Rückkehrort %1, %2°</translation>
    </message>
    <message>
        <source>An azimuth is a number from 0 to 360.</source>
        <translation>Ein Azimut ist eine Zahl von 0 bis 360.</translation>
    </message>
    <message>
        <source>audited</source>
        <translation>geprüft</translation>
    </message>
    <message>
        <source>auditing …</source>
        <translation>wird geprüft …</translation>
    </message>
    <message>
        <source>read-only</source>
        <translation>schreibgeschützt</translation>
    </message>
    <message>
        <source>not saved</source>
        <translation>nicht gespeichert</translation>
    </message>
    <message>
        <source>saved %1</source>
        <translation>gespeichert %1</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::SummaryDialog</name>
    <message>
        <source>changed</source>
        <translation>geändert</translation>
    </message>
    <message>
        <source>left out</source>
        <translation>ausgelassen</translation>
    </message>
    <message>
        <source>mind</source>
        <translation>beachten</translation>
    </message>
    <message>
        <source>%1 features read</source>
        <translation>%1 Objekte gelesen</translation>
    </message>
    <message>
        <source>%1 left out</source>
        <translation>%1 ausgelassen</translation>
    </message>
    <message>
        <source>none left out</source>
        <translation>nichts ausgelassen</translation>
    </message>
    <message>
        <source>1 remark</source>
        <translation>1 Bemerkung</translation>
    </message>
    <message>
        <source>%1 remarks</source>
        <translation>%1 Bemerkungen</translation>
    </message>
    <message>
        <source>%1
%2, layer %3, coordinates: %4
%5</source>
        <translation>%1
%2, Ebene %3, Koordinaten: %4
%5</translation>
    </message>
    <message>
        <source>of the file</source>
        <translation>der Datei</translation>
    </message>
    <message>
        <source>as you named them</source>
        <translation>wie von Ihnen genannt</translation>
    </message>
    <message>
        <source>Where</source>
        <translation>Wo</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>Why</source>
        <translation>Warum</translation>
    </message>
    <message>
        <source>Everything in the file was taken as it is.</source>
        <translation>Alles in der Datei wurde genommen, wie es ist.</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>What the reading changed or left out</source>
        <translation>Was beim Lesen geändert oder ausgelassen wurde</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::T</name>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Rename %1</source>
        <translation>%1 umbenennen</translation>
    </message>
    <message>
        <source>It needs a name.</source>
        <translation>Es braucht einen Namen.</translation>
    </message>
    <message>
        <source>Findings and lists speak of it by name.</source>
        <translation>Befunde und Listen nennen es beim Namen.</translation>
    </message>
    <message>
        <source>Notes</source>
        <translation>Notizen</translation>
    </message>
    <message>
        <source>Change notes of %1</source>
        <translation>Notizen von %1 ändern</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::TableDialog</name>
    <message>
        <source>Connect</source>
        <translation>Verbinden</translation>
    </message>
    <message>
        <source>Add table</source>
        <translation>Tabelle hinzufügen</translation>
    </message>
    <message>
        <source>Add a table from a PostGIS server</source>
        <translation>Eine Tabelle von einem PostGIS-Server hinzufügen</translation>
    </message>
    <message>
        <source>Address</source>
        <translation>Adresse</translation>
    </message>
    <message>
        <source>Your name there</source>
        <translation>Ihr Name dort</translation>
    </message>
    <message>
        <source>if another than on this machine</source>
        <translation>falls ein anderer als auf diesem Rechner</translation>
    </message>
    <message>
        <source>Password</source>
        <translation>Passwort</translation>
    </message>
    <message>
        <source>if the server asks for one</source>
        <translation>falls der Server eines verlangt</translation>
    </message>
    <message>
        <source>The password is kept in memory until the window is closed, and written down nowhere.</source>
        <translation>Das Passwort bleibt im Speicher, bis das Fenster geschlossen wird, und wird nirgends aufgeschrieben.</translation>
    </message>
    <message>
        <source>Find a table</source>
        <translation>Eine Tabelle suchen</translation>
    </message>
    <message>
        <source>Tables with places</source>
        <translation>Tabellen mit Orten</translation>
    </message>
    <message>
        <source>Table</source>
        <translation>Tabelle</translation>
    </message>
    <message>
        <source>Shapes</source>
        <translation>Formen</translation>
    </message>
    <message>
        <source>Coordinates</source>
        <translation>Koordinaten</translation>
    </message>
    <message>
        <source>Rows, about</source>
        <translation>Zeilen, etwa</translation>
    </message>
    <message>
        <source>Label column</source>
        <translation>Spalte der Beschriftung</translation>
    </message>
    <message>
        <source>Parcel number</source>
        <translation>Flurstücksnummer</translation>
    </message>
    <message>
        <source>Only where</source>
        <translation>Nur wo</translation>
    </message>
    <message>
        <source>all; or category = &apos;lease&apos; AND area &gt; 500</source>
        <translation>alle; oder category = &apos;lease&apos; AND area &gt; 500</translation>
    </message>
    <message>
        <source>Asking …</source>
        <translation>Der Server wird gefragt …</translation>
    </message>
    <message>
        <source>Asking %1</source>
        <translation>%1 wird gefragt</translation>
    </message>
    <message>
        <source>unknown</source>
        <translation>unbekannt</translation>
    </message>
    <message>
        <source>no right to read it</source>
        <translation>kein Recht, sie zu lesen</translation>
    </message>
    <message>
        <source>There is no table with places in this database.</source>
        <translation>In dieser Datenbank ist keine Tabelle mit Orten.</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>Of this table, %1. </source>
        <translation>Zu dieser Tabelle: %1. </translation>
    </message>
    <message>
        <source>Ask whoever keeps the table in which system its coordinates are, and name the system here.</source>
        <translation>Fragen Sie, wer die Tabelle führt, in welchem System ihre Koordinaten sind, und nennen Sie das System hier.</translation>
    </message>
    <message>
        <source>Of this table: %1.</source>
        <translation>Zu dieser Tabelle: %1.</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::TableFlow</name>
    <message>
        <source>Connect %1</source>
        <translation>%1 verbinden</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::TypedEntry</name>
    <message>
        <source>Typed figures</source>
        <translation>Getippte Zahlen</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::WindowActions</name>
    <message>
        <source>&amp;New</source>
        <translation>&amp;Neu</translation>
    </message>
    <message>
        <source>&amp;Open…</source>
        <translation>Ö&amp;ffnen…</translation>
    </message>
    <message>
        <source>Open the &amp;sample</source>
        <translation>&amp;Beispiel öffnen</translation>
    </message>
    <message>
        <source>&amp;Save</source>
        <translation>&amp;Speichern</translation>
    </message>
    <message>
        <source>Save &amp;as…</source>
        <translation>Speichern &amp;unter…</translation>
    </message>
    <message>
        <source>&amp;Quit</source>
        <translation>B&amp;eenden</translation>
    </message>
    <message>
        <source>&amp;Undo</source>
        <translation>&amp;Rückgängig</translation>
    </message>
    <message>
        <source>&amp;Redo</source>
        <translation>&amp;Wiederholen</translation>
    </message>
    <message>
        <source>&amp;List of edits</source>
        <translation>Liste der &amp;Änderungen</translation>
    </message>
    <message>
        <source>&amp;Delete</source>
        <translation>&amp;Löschen</translation>
    </message>
    <message>
        <source>&amp;Find a command or place</source>
        <translation>Befehl oder Ort &amp;suchen</translation>
    </message>
    <message>
        <source>Add &amp;imagery…</source>
        <translation>&amp;Luftbild hinzufügen…</translation>
    </message>
    <message>
        <source>An orthophoto or any other raster, to draw over</source>
        <translation>Ein Orthofoto oder ein anderes Raster, zum Darüberzeichnen</translation>
    </message>
    <message>
        <source>Add a &amp;folder…</source>
        <translation>&amp;Ordner hinzufügen…</translation>
    </message>
    <message>
        <source>A folder of tiles, or of GeoTIFFs that make one picture</source>
        <translation>Ein Ordner mit Kacheln, oder mit GeoTIFFs, die ein Bild ergeben</translation>
    </message>
    <message>
        <source>Add imagery from a &amp;server…</source>
        <translation>Luftbild von einem &amp;Server hinzufügen…</translation>
    </message>
    <message>
        <source>A Web Map Tile Service, or tiles by the pattern of their addresses</source>
        <translation>Ein Web Map Tile Service, oder Kacheln nach dem Muster ihrer Adressen</translation>
    </message>
    <message>
        <source>Add &amp;reference layer…</source>
        <translation>&amp;Referenzebene hinzufügen…</translation>
    </message>
    <message>
        <source>Parcels to pick from, roads, water</source>
        <translation>Flurstücke zum Auswählen, Straßen, Wasser</translation>
    </message>
    <message>
        <source>Add a &amp;table from a PostGIS server…</source>
        <translation>&amp;Tabelle von einem PostGIS-Server hinzufügen…</translation>
    </message>
    <message>
        <source>Import &amp;fences…</source>
        <translation>&amp;Zäune importieren…</translation>
    </message>
    <message>
        <source>Import s&amp;ites…</source>
        <translation>S&amp;chutzobjekte importieren…</translation>
    </message>
    <message>
        <source>Import &amp;homes…</source>
        <translation>&amp;Rückkehrorte importieren…</translation>
    </message>
    <message>
        <source>From a &amp;deed…</source>
        <translation>Aus einer &amp;Urkunde…</translation>
    </message>
    <message>
        <source>A fence from bearings and distances, with how well they close</source>
        <translation>Ein Zaun aus Richtungen und Entfernungen, und wie gut sie schließen</translation>
    </message>
    <message>
        <source>&amp;List sources</source>
        <translation>&amp;Quellen auflisten</translation>
    </message>
    <message>
        <source>&amp;Next finding</source>
        <translation>&amp;Nächster Befund</translation>
    </message>
    <message>
        <source>Go to a &amp;day</source>
        <translation>Zu einem &amp;Tag</translation>
    </message>
    <message>
        <source>&amp;Deliver…</source>
        <translation>&amp;Ausliefern…</translation>
    </message>
    <message>
        <source>&amp;What is here?</source>
        <translation>&amp;Was ist hier?</translation>
    </message>
    <message>
        <source>Show &amp;all</source>
        <translation>&amp;Alles zeigen</translation>
    </message>
    <message>
        <source>Show &amp;selection</source>
        <translation>Aus&amp;wahl zeigen</translation>
    </message>
    <message>
        <source>Nea&amp;rer</source>
        <translation>&amp;Näher</translation>
    </message>
    <message>
        <source>&amp;Farther</source>
        <translation>&amp;Ferner</translation>
    </message>
    <message>
        <source>Turn &amp;left by 15°</source>
        <translation>Um 15° nach &amp;links drehen</translation>
    </message>
    <message>
        <source>Turn r&amp;ight by 15°</source>
        <translation>Um 15° nach &amp;rechts drehen</translation>
    </message>
    <message>
        <source>&amp;North up</source>
        <translation>N&amp;orden oben</translation>
    </message>
    <message>
        <source>Ne&amp;xt part of the window</source>
        <translation>Nächster &amp;Teil des Fensters</translation>
    </message>
    <message>
        <source>&amp;Tools</source>
        <translation>&amp;Werkzeuge</translation>
    </message>
    <message>
        <source>&amp;Ledger, form and findings</source>
        <translation>&amp;Verzeichnis, Formular und Befunde</translation>
    </message>
    <message>
        <source>&amp;Calendar</source>
        <translation>&amp;Kalender</translation>
    </message>
    <message>
        <source>&amp;Arrange as given</source>
        <translation>Anordnung wie &amp;vorgegeben</translation>
    </message>
    <message>
        <source>&amp;Metric units</source>
        <translation>&amp;Metrische Einheiten</translation>
    </message>
    <message>
        <source>&amp;US units</source>
        <translation>&amp;US-Einheiten</translation>
    </message>
    <message>
        <source>De&amp;cimal degrees</source>
        <translation>&amp;Dezimalgrad</translation>
    </message>
    <message>
        <source>Degrees, minutes, &amp;seconds</source>
        <translation>Grad, Minuten, &amp;Sekunden</translation>
    </message>
    <message>
        <source>U&amp;TM</source>
        <translation>U&amp;TM</translation>
    </message>
    <message>
        <source>M&amp;GRS</source>
        <translation>M&amp;GRS</translation>
    </message>
    <message>
        <source>&amp;No grid</source>
        <translation>&amp;Kein Gitter</translation>
    </message>
    <message>
        <source>Grid of &amp;degrees</source>
        <translation>Gitter aus &amp;Graden</translation>
    </message>
    <message>
        <source>&amp;UTM grid</source>
        <translation>&amp;UTM-Gitter</translation>
    </message>
    <message>
        <source>&amp;MGRS grid</source>
        <translation>&amp;MGRS-Gitter</translation>
    </message>
    <message>
        <source>As the s&amp;ystem</source>
        <translation>Wie das S&amp;ystem</translation>
    </message>
    <message>
        <source>&amp;Light</source>
        <translation>&amp;Hell</translation>
    </message>
    <message>
        <source>Dar&amp;k</source>
        <translation>&amp;Dunkel</translation>
    </message>
    <message>
        <source>&amp;Keys…</source>
        <translation>&amp;Tasten…</translation>
    </message>
    <message>
        <source>&amp;About, and cautions</source>
        <translation>Ü&amp;ber, und Vorbehalte</translation>
    </message>
    <message>
        <source>Click its corners on the map, or type distances and bearings</source>
        <translation>Ecken anklicken, oder Strecken und Richtungen tippen</translation>
    </message>
    <message>
        <source>Draw a keep-in</source>
        <translation>Eine Einsatzfläche zeichnen</translation>
    </message>
    <message>
        <source>Show %1</source>
        <translation>%1 zeigen</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>&amp;File</source>
        <translation>&amp;Datei</translation>
    </message>
    <message>
        <source>Open &amp;recent</source>
        <translation>Zu&amp;letzt geöffnet</translation>
    </message>
    <message>
        <source>&amp;Edit</source>
        <translation>&amp;Bearbeiten</translation>
    </message>
    <message>
        <source>&amp;Draw</source>
        <translation>&amp;Zeichnen</translation>
    </message>
    <message>
        <source>&amp;Sources</source>
        <translation>&amp;Quellen</translation>
    </message>
    <message>
        <source>&amp;Audit</source>
        <translation>&amp;Prüfung</translation>
    </message>
    <message>
        <source>De&amp;liver</source>
        <translation>A&amp;usliefern</translation>
    </message>
    <message>
        <source>&amp;View</source>
        <translation>&amp;Ansicht</translation>
    </message>
    <message>
        <source>Gri&amp;d</source>
        <translation>&amp;Gitter</translation>
    </message>
    <message>
        <source>&amp;Units</source>
        <translation>&amp;Einheiten</translation>
    </message>
    <message>
        <source>&amp;Coordinates</source>
        <translation>&amp;Koordinaten</translation>
    </message>
    <message>
        <source>Appearanc&amp;e</source>
        <translation>Er&amp;scheinungsbild</translation>
    </message>
    <message>
        <source>Lan&amp;guage</source>
        <translation>S&amp;prache</translation>
    </message>
    <message>
        <source>&amp;Panels</source>
        <translation>&amp;Bereiche</translation>
    </message>
    <message>
        <source>&amp;Help</source>
        <translation>&amp;Hilfe</translation>
    </message>
    <message>
        <source>&amp;Copy</source>
        <translation>K&amp;opieren</translation>
    </message>
    <message>
        <source>Cu&amp;t</source>
        <translation>A&amp;usschneiden</translation>
    </message>
    <message>
        <source>&amp;Paste</source>
        <translation>&amp;Einfügen</translation>
    </message>
    <message>
        <source>Fences, sites and homes copied here or in another document, or GeoJSON text</source>
        <translation>Zäune, Schutzobjekte und Rückkehrorte, hier oder in einem anderen Dokument kopiert, oder GeoJSON-Text</translation>
    </message>
    <message>
        <source>Choose &amp;all</source>
        <translation>&amp;Alles auswählen</translation>
    </message>
    <message>
        <source>Choose the &amp;others instead</source>
        <translation>Die an&amp;deren auswählen</translation>
    </message>
    <message>
        <source>Choose &amp;nothing</source>
        <translation>&amp;Nichts auswählen</translation>
    </message>
    <message>
        <source>Choose &amp;where…</source>
        <translation>Auswählen, &amp;wo…</translation>
    </message>
    <message>
        <source>Snap &amp;to</source>
        <translation>E&amp;inrasten an</translation>
    </message>
    <message>
        <source>&amp;Move shared corners together</source>
        <translation>&amp;Gemeinsame Ecken zusammen verschieben</translation>
    </message>
    <message>
        <source>Corners of neighbours that lie within 1 cm of each other</source>
        <translation>Ecken von Nachbarn, die innerhalb von 1 cm beieinander liegen</translation>
    </message>
    <message>
        <source>Loc&amp;k</source>
        <translation>Fi&amp;xieren</translation>
    </message>
    <message>
        <source>Nothing changes what is chosen until it is unlocked</source>
        <translation>Nichts ändert das Gewählte, bis es gelöst wird</translation>
    </message>
    <message>
        <source>U&amp;nlock</source>
        <translation>&amp;Lösen</translation>
    </message>
    <message>
        <source>Co&amp;rners…</source>
        <translation>E&amp;cken…</translation>
    </message>
    <message>
        <source>The corners of the chosen fence as a table: to be typed, copied and pasted</source>
        <translation>Die Ecken des ausgewählten Zauns als Tabelle: zum Tippen, Kopieren und Einfügen</translation>
    </message>
    <message>
        <source>&amp;Unite</source>
        <translation>&amp;Vereinigen</translation>
    </message>
    <message>
        <source>The chosen fences become one</source>
        <translation>Aus den gewählten Zäunen wird einer</translation>
    </message>
    <message>
        <source>Take the others &amp;out of the first</source>
        <translation>Die anderen aus dem ersten &amp;herausnehmen</translation>
    </message>
    <message>
        <source>The fence that was chosen first loses what the others cover</source>
        <translation>Der zuerst gewählte Zaun verliert, was die anderen bedecken</translation>
    </message>
    <message>
        <source>Keep what they &amp;share</source>
        <translation>Behalten, was alle &amp;gemeinsam haben</translation>
    </message>
    <message>
        <source>The chosen fences become what lies in all of them</source>
        <translation>Aus den gewählten Zäunen wird, was in allen liegt</translation>
    </message>
    <message>
        <source>Fill the &amp;holes</source>
        <translation>&amp;Löcher füllen</translation>
    </message>
    <message>
        <source>Make a &amp;polygon of it</source>
        <translation>Zum &amp;Polygon machen</translation>
    </message>
    <message>
        <source>A circle, corridor, setback or fence of parcels, drawn corner by corner</source>
        <translation>Ein Kreis, ein Korridor, eine Abstandsfläche oder ein Zaun aus Flurstücken, Ecke für Ecke gezeichnet</translation>
    </message>
    <message>
        <source>Copy at a &amp;distance…</source>
        <translation>Im &amp;Abstand kopieren…</translation>
    </message>
    <message>
        <source>A fence at the same distance all round, outside or inside</source>
        <translation>Ein Zaun in ringsum gleichem Abstand, außen oder innen</translation>
    </message>
    <message>
        <source>D&amp;uplicate</source>
        <translation>Ver&amp;doppeln</translation>
    </message>
    <message>
        <source>Take the others &amp;out of %1</source>
        <translation>Die anderen aus %1 &amp;herausnehmen</translation>
    </message>
    <message>
        <source>&amp;Shape</source>
        <translation>&amp;Form</translation>
    </message>
    <message>
        <source>&amp;Margin…</source>
        <translation>&amp;Sicherheitsabstand…</translation>
    </message>
    <message>
        <source>How far the aircraft keeps from every boundary: position error, reaction, braking</source>
        <translation>Wie weit das Fluggerät von jeder Grenze entfernt bleibt: Ortsfehler, Reaktion, Bremsen</translation>
    </message>
    <message>
        <source>What the margin leaves of the operating area: the row of dots</source>
        <translation>Was der Sicherheitsabstand vom Betriebsgebiet übrig lässt: die Punktreihe</translation>
    </message>
    <message>
        <source>Zoom to everything</source>
        <translation>Auf alles zoomen</translation>
    </message>
    <message>
        <source>Zoom to what is chosen</source>
        <translation>Auf die Auswahl zoomen</translation>
    </message>
    <message>
        <source>Zoom in</source>
        <translation>Vergrößern</translation>
    </message>
    <message>
        <source>Zoom out</source>
        <translation>Verkleinern</translation>
    </message>
    <message>
        <source>Line of the &amp;margin</source>
        <translation>Linie &amp;des freien Gebiets</translation>
    </message>
</context>
<context>
    <name>fencewright::desktop::WordsDialog</name>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
</context>
<context>
    <name>fencewright::session::LiveAudit</name>
    <message>
        <source>Audit</source>
        <translation>Prüfung</translation>
    </message>
</context>
<context>
    <name>fencewright::session::OpenDocument</name>
    <message>
        <source>Untitled</source>
        <translation>Ohne Titel</translation>
    </message>
</context>
<context>
    <name>fencewright::session::OutlineCache</name>
    <message>
        <source>Outlines</source>
        <translation>Umrisse</translation>
    </message>
</context>
<context>
    <name>fencewright::session::SourceLibrary</name>
    <message>
        <source>Looking at the bands of %1</source>
        <translation>Die Kanäle von %1 werden angesehen</translation>
    </message>
    <message>
        <source>Reading %1</source>
        <translation>%1 wird gelesen</translation>
    </message>
    <message>
        <source>Preparing %1 for quick viewing</source>
        <translation>%1 wird zur schnellen Ansicht vorbereitet</translation>
    </message>
</context>
<context>
    <name>main</name>
    <message>
        <source>Prepares, checks and hands out geofences.</source>
        <translation>Bereitet Geozäune vor, prüft sie und gibt sie heraus.</translation>
    </message>
    <message>
        <source>The fence set to open.</source>
        <translation>Der zu öffnende Zaunsatz.</translation>
    </message>
    <message>
        <source>Appearance: light or dark.</source>
        <translation>Erscheinungsbild: light (hell) oder dark (dunkel).</translation>
    </message>
    <message>
        <source>Language of the window: en or de.</source>
        <translation>Sprache des Fensters: en oder de.</translation>
    </message>
    <message>
        <source>Keep settings in this file.</source>
        <translation>Einstellungen in dieser Datei aufbewahren.</translation>
    </message>
    <message>
        <source>The day the calendar starts on.</source>
        <translation>Der Tag, mit dem der Kalender beginnt.</translation>
    </message>
    <message>
        <source>--theme is light or dark, not &quot;%1&quot;.</source>
        <translation>--theme ist light oder dark, nicht „%1“.</translation>
    </message>
    <message>
        <source>--language is en or de, not &quot;%1&quot;.</source>
        <translation>--language ist en oder de, nicht „%1“.</translation>
    </message>
    <message>
        <source>--date is a day such as 2026-05-14, not &quot;%1&quot;.</source>
        <translation>--date ist ein Tag wie 2026-05-14, nicht „%1“.</translation>
    </message>
    <message>
        <source>One document at a time.</source>
        <translation>Ein Dokument auf einmal.</translation>
    </message>
</context>
</TS>
