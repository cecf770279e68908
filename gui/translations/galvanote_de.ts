<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de" sourcelanguage="en">
<context>
    <name>Advice</name>
    <message>
        <source>The result stands, with a wider uncertainty. Next time add the salt only at settled.</source>
        <translation>Das Ergebnis gilt, mit größerer Unsicherheit. Nächstes Mal das Salz erst zugeben, wenn „eingeschwungen“ dasteht.</translation>
    </message>
    <message>
        <source>The result stands, with a wider uncertainty. Next time let the end run a few minutes longer.</source>
        <translation>Das Ergebnis gilt, mit größerer Unsicherheit. Nächstes Mal am Ende einige Minuten länger messen.</translation>
    </message>
    <message>
        <source>Repeat the run; the figure for before is only a bound.</source>
        <translation>Messung wiederholen; der Wert für vorher ist nur eine Grenze.</translation>
    </message>
    <message>
        <source>Nothing is wrong with the saving: the fit is not needed for it.</source>
        <translation>An der eingesparten Spannung ändert das nichts: die Anpassung wird für sie nicht gebraucht.</translation>
    </message>
    <message>
        <source>Look at the residuals; do not quote a time constant.</source>
        <translation>Die Restabweichungen ansehen; keine Zeitkonstante angeben.</translation>
    </message>
    <message>
        <source>If the phases were not recognised, tag the moments, or choose the windows by hand.</source>
        <translation>Wurden die Phasen nicht erkannt: Momente nachtragen oder die Abschnitte von Hand wählen.</translation>
    </message>
    <message>
        <source>Choose another window by hand, or repeat the run.</source>
        <translation>Einen anderen Abschnitt von Hand wählen oder die Messung wiederholen.</translation>
    </message>
    <message>
        <source>Add the missing moment; then the phases are certain.</source>
        <translation>Den fehlenden Moment nachtragen; dann sind die Phasen sicher.</translation>
    </message>
    <message>
        <source>Nothing is lost; plus belongs to the anode.</source>
        <translation>Nichts ist verloren; Plus gehört an die Anode.</translation>
    </message>
    <message>
        <source>Compare only what was measured with one polarity.</source>
        <translation>Nur vergleichen, was mit derselben Polung gemessen wurde.</translation>
    </message>
    <message>
        <source>Switch the meter&apos;s REL off before the next run.</source>
        <translation>Vor der nächsten Messung REL am Messgerät ausschalten.</translation>
    </message>
    <message>
        <source>More runs, or a longer growth, would tell.</source>
        <translation>Mehr Messungen oder ein längeres Wachstum brächten Klarheit.</translation>
    </message>
    <message>
        <source>Fill in the bench and record with it; then the current is known too.</source>
        <translation>Den Aufbau ausfüllen und damit aufzeichnen; dann ist auch der Strom bekannt.</translation>
    </message>
    <message>
        <source>Write temperature and air pressure on the bench.</source>
        <translation>Temperatur und Luftdruck beim Aufbau eintragen.</translation>
    </message>
    <message>
        <source>Copy the accuracy from the meter&apos;s data sheet to the bench.</source>
        <translation>Die Genauigkeit aus dem Datenblatt des Messgeräts beim Aufbau eintragen.</translation>
    </message>
    <message>
        <source>Write resistor and stack on the bench.</source>
        <translation>Vorwiderstand und Batteriestapel beim Aufbau eintragen.</translation>
    </message>
    <message>
        <source>Measure the open stack and write it on the bench.</source>
        <translation>Den offenen Batteriestapel messen und beim Aufbau eintragen.</translation>
    </message>
</context>
<context>
    <name>Bench</name>
    <message>
        <source>held by the supply</source>
        <translation>vom Netzgerät gehalten</translation>
    </message>
    <message>
        <source>{value} at {before} (95 %). It rises by {rise} while the voltage falls to {after}.</source>
        <translation>{value} bei {before} (95 %). Er steigt um {rise}, während die Spannung auf {after} fällt.</translation>
    </message>
    <message>
        <source>Current density</source>
        <translation>Stromdichte</translation>
    </message>
    <message>
        <source>measured</source>
        <translation>gemessen</translation>
    </message>
    <message>
        <source>as declared</source>
        <translation>wie angegeben</translation>
    </message>
    <message>
        <source>assumed</source>
        <translation>angenommen</translation>
    </message>
    <message>
        <source>Stack</source>
        <translation>Batteriestapel</translation>
    </message>
    <message>
        <source>regulation: {rise} from before to after</source>
        <translation>Änderung von vorher zu nachher: {rise}</translation>
    </message>
    <message>
        <source>Current after</source>
        <translation>Strom nachher</translation>
    </message>
    <message>
        <source>Through the meter</source>
        <translation>Durch das Messgerät</translation>
    </message>
    <message>
        <source>of the current</source>
        <translation>des Stroms</translation>
    </message>
    <message>
        <source>Batteries last</source>
        <translation>Batterien halten</translation>
    </message>
    <message>
        <source>at most</source>
        <translation>höchstens</translation>
    </message>
    <message>
        <source>{power} while the electrodes touch</source>
        <translation>{power}, wenn sich die Elektroden berühren</translation>
    </message>
    <message>
        <source>Heat in the resistor</source>
        <translation>Wärme im Vorwiderstand</translation>
    </message>
    <message>
        <source>bears it</source>
        <translation>hält das aus</translation>
    </message>
    <message>
        <source>TOO SMALL</source>
        <translation>ZU KLEIN</translation>
    </message>
    <message>
        <source>Its rating</source>
        <translation>Seine Belastbarkeit</translation>
    </message>
    <message>
        <source>Take one rated</source>
        <translation>Nötige Belastbarkeit</translation>
    </message>
    <message>
        <source>or more</source>
        <translation>oder mehr</translation>
    </message>
    <message>
        <source>at the battery&apos;s terminal</source>
        <translation>direkt am Batteriepol</translation>
    </message>
    <message>
        <source>Fuse</source>
        <translation>Sicherung</translation>
    </message>
    <message>
        <source>A dry cell reads</source>
        <translation>Trockene Zelle zeigt</translation>
    </message>
    <message>
        <source>range not given</source>
        <translation>Messbereich nicht angegeben</translation>
    </message>
    <message>
        <source>within the range of {limit}</source>
        <translation>innerhalb des Messbereichs von {limit}</translation>
    </message>
    <message>
        <source>BEYOND the range of {limit}: divide by {divider}</source>
        <translation>ÜBER dem Messbereich von {limit}: durch {divider} teilen</translation>
    </message>
    <message>
        <source>Hydrogen in an hour</source>
        <translation>Wasserstoff pro Stunde</translation>
    </message>
    <message>
        <source>a closed headspace of {volume} could be lit: leave the vessel open</source>
        <translation>ein geschlossener Gasraum von {volume} wäre zündfähig: Gefäß offen lassen</translation>
    </message>
    <message>
        <source>After</source>
        <translation>Nach</translation>
    </message>
    <message>
        <source>Current through the cell</source>
        <translation>Strom durch die Zelle</translation>
    </message>
    <message>
        <source>Current through the cell: {value}</source>
        <translation>Strom durch die Zelle: {value}</translation>
    </message>
    <message>
        <source>Assumed: {what}.</source>
        <translation>Angenommen: {what}.</translation>
    </message>
    <message>
        <source>Current through the cell: not known</source>
        <translation>Strom durch die Zelle: nicht bekannt</translation>
    </message>
    <message>
        <source>Supply</source>
        <translation>Stromversorgung</translation>
    </message>
    <message>
        <source>Batteries in series and one large resistor keep the current steady.</source>
        <translation>Batterien in Reihe und ein großer Vorwiderstand halten den Strom konstant.</translation>
    </message>
    <message>
        <source>Cell</source>
        <translation>Zelle</translation>
    </message>
    <message>
        <source>Electrodes, solution and surroundings. What is empty is assumed, and said.</source>
        <translation>Elektroden, Lösung und Umgebung. Was leer bleibt, wird angenommen, und das wird gesagt.</translation>
    </message>
    <message>
        <source>Meter</source>
        <translation>Messgerät</translation>
    </message>
    <message>
        <source>From the meter&apos;s data sheet. It decides how sure the voltages are.</source>
        <translation>Aus dem Datenblatt des Messgeräts. Davon hängt ab, wie sicher die Spannungen sind.</translation>
    </message>
    <message>
        <source>Settling</source>
        <translation>Einschwingen</translation>
    </message>
    <message>
        <source>When a voltage counts as settled: 5 mV/min for a lesson, 0.5 in a laboratory.</source>
        <translation>Wann eine Spannung als eingeschwungen gilt: 5 mV/min im Unterricht, 0,5 im Labor.</translation>
    </message>
    <message>
        <source>Title of the run</source>
        <translation>Titel der Messung</translation>
    </message>
    <message>
        <source>Strip 4</source>
        <translation>Streifen 4</translation>
    </message>
    <message>
        <source>Batteries in series</source>
        <translation>Batterien in Reihe</translation>
    </message>
    <message>
        <source>Voltage of one battery</source>
        <translation>Spannung einer Batterie</translation>
    </message>
    <message>
        <source>Stack voltage, measured</source>
        <translation>Stapelspannung, gemessen</translation>
    </message>
    <message>
        <source>Measured open, without the cell. Better than the label of the batteries.</source>
        <translation>Offen gemessen, ohne die Zelle. Besser als der Aufdruck der Batterien.</translation>
    </message>
    <message>
        <source>Resistance inside the stack</source>
        <translation>Innenwiderstand des Stapels</translation>
    </message>
    <message>
        <source>Series resistor</source>
        <translation>Vorwiderstand</translation>
    </message>
    <message>
        <source>As on the part: 12k, 4.7k, 1M or plain ohms.</source>
        <translation>Wie auf dem Bauteil: 12k, 4,7k, 1M oder einfach Ohm.</translation>
    </message>
    <message>
        <source>Tolerance of the resistor</source>
        <translation>Toleranz des Vorwiderstands</translation>
    </message>
    <message>
        <source>Power rating of the resistor</source>
        <translation>Belastbarkeit des Vorwiderstands</translation>
    </message>
    <message>
        <source>Held current</source>
        <translation>Geregelter Strom</translation>
    </message>
    <message>
        <source>Only for a supply that holds the current by itself; then no resistor.</source>
        <translation>Nur für ein Netzgerät, das den Strom selbst hält; dann kein Vorwiderstand.</translation>
    </message>
    <message>
        <source>Anode</source>
        <translation>Anode</translation>
    </message>
    <message>
        <source>carbon rod</source>
        <translation>Kohlestab</translation>
    </message>
    <message>
        <source>Cathode</source>
        <translation>Kathode</translation>
    </message>
    <message>
        <source>steel wire</source>
        <translation>Stahldraht</translation>
    </message>
    <message>
        <source>Anode area in the solution</source>
        <translation>Anodenfläche in der Lösung</translation>
    </message>
    <message>
        <source>Electrolyte</source>
        <translation>Elektrolyt</translation>
    </message>
    <message>
        <source>0.1 mol/L potassium phosphate</source>
        <translation>0,1 mol/L Kaliumphosphat</translation>
    </message>
    <message>
        <source>pH</source>
        <translation>pH</translation>
    </message>
    <message>
        <source>Temperature</source>
        <translation>Temperatur</translation>
    </message>
    <message>
        <source>Air pressure</source>
        <translation>Luftdruck</translation>
    </message>
    <message>
        <source>Distance of the electrodes</source>
        <translation>Abstand der Elektroden</translation>
    </message>
    <message>
        <source>Volume of the solution</source>
        <translation>Volumen der Lösung</translation>
    </message>
    <message>
        <source>Headspace, if closed by mistake</source>
        <translation>Gasraum, falls versehentlich geschlossen</translation>
    </message>
    <message>
        <source>For the caution only: the vessel stays open.</source>
        <translation>Nur für den Hinweis: das Gefäß bleibt offen.</translation>
    </message>
    <message>
        <source>Metal salt</source>
        <translation>Metallsalz</translation>
    </message>
    <message>
        <source>cobalt nitrate</source>
        <translation>Cobaltnitrat</translation>
    </message>
    <message>
        <source>Mass of the salt</source>
        <translation>Masse des Salzes</translation>
    </message>
    <message>
        <source>Stirring</source>
        <translation>Rühren</translation>
    </message>
    <message>
        <source>Range</source>
        <translation>Messbereich</translation>
    </message>
    <message>
        <source>One digit</source>
        <translation>Ein Digit</translation>
    </message>
    <message>
        <source>Accuracy, of the reading</source>
        <translation>Genauigkeit, vom Messwert</translation>
    </message>
    <message>
        <source>Accuracy, digits more</source>
        <translation>Genauigkeit, dazu Digits</translation>
    </message>
    <message>
        <source>Input resistance</source>
        <translation>Eingangswiderstand</translation>
    </message>
    <message>
        <source>Zero: shown with the leads together</source>
        <translation>Nullpunkt: Anzeige bei verbundenen Leitungen</translation>
    </message>
    <message>
        <source>Taken off every reading in the findings; the file keeps what was read.</source>
        <translation>Wird in den Ergebnissen von jedem Messwert abgezogen; die Datei behält, was gemessen wurde.</translation>
    </message>
    <message>
        <source>Gain: shown change over true change</source>
        <translation>Faktor: angezeigte durch wahre Änderung</translation>
    </message>
    <message>
        <source>From a trusted voltage; 1 for a perfect meter.</source>
        <translation>Aus einer bekannten Spannung; 1 für ein ideales Messgerät.</translation>
    </message>
    <message>
        <source>Largest drift</source>
        <translation>Größte Drift</translation>
    </message>
    <message>
        <source>Shortest window</source>
        <translation>Kürzester Abschnitt</translation>
    </message>
    <message>
        <source>Take {value} {unit}</source>
        <translation>{value} {unit} übernehmen</translation>
    </message>
    <message>
        <source>Kind of instrument</source>
        <translation>Art des Messgeräts</translation>
    </message>
    <message>
        <source>Port</source>
        <translation>Anschluss</translation>
    </message>
    <message>
        <source>Stands for</source>
        <translation>Steht für</translation>
    </message>
    <message>
        <source>More settings</source>
        <translation>Weitere Angaben</translation>
    </message>
    <message>
        <source>Remove</source>
        <translation>Entfernen</translation>
    </message>
    <message>
        <source>Reading now</source>
        <translation>Messwert jetzt</translation>
    </message>
    <message>
        <source>What the meter&apos;s display shows, in volts</source>
        <translation>Was das Messgerät anzeigt, in Volt</translation>
    </message>
    <message>
        <source>Compare</source>
        <translation>Vergleichen</translation>
    </message>
    <message>
        <source>Known voltage on the meter&apos;s leads, in volts</source>
        <translation>Bekannte Spannung an den Messleitungen, in Volt</translation>
    </message>
    <message>
        <source>What it is known by</source>
        <translation>Woher sie bekannt ist</translation>
    </message>
    <message>
        <source>known by: leads together, bench meter …</source>
        <translation>bekannt durch: Leitungen verbunden, Tischmessgerät …</translation>
    </message>
    <message>
        <source>Take this point</source>
        <translation>Punkt übernehmen</translation>
    </message>
    <message>
        <source>Raw bytes, as they came</source>
        <translation>Rohe Bytes, wie sie kamen</translation>
    </message>
    <message>
        <source>The display shows</source>
        <translation>Die Anzeige zeigt</translation>
    </message>
    <message>
        <source>It is truly</source>
        <translation>In Wahrheit sind es</translation>
    </message>
    <message>
        <source>a lesson (demo)</source>
        <translation>eine Unterrichtsstunde (demo)</translation>
    </message>
    <message>
        <source>a laboratory run (bench)</source>
        <translation>eine Labormessung (bench)</translation>
    </message>
    <message>
        <source>Stop listening</source>
        <translation>Nicht mehr abhören</translation>
    </message>
    <message>
        <source>Listen</source>
        <translation>Abhören</translation>
    </message>
    <message>
        <source>Simulated cell</source>
        <translation>Simulierte Zelle</translation>
    </message>
    <message>
        <source>Recognise it by listening</source>
        <translation>Durch Abhören erkennen</translation>
    </message>
    <message>
        <source>Meter that answers queries (SCPI)</source>
        <translation>Messgerät, das auf Abfragen antwortet (SCPI)</translation>
    </message>
    <message>
        <source>Board that prints lines</source>
        <translation>Platine, die Zeilen schreibt</translation>
    </message>
    <message>
        <source>Board that sends checked packets</source>
        <translation>Platine, die geprüfte Pakete sendet</translation>
    </message>
    <message>
        <source>Handheld meter, sends its segments</source>
        <translation>Handmultimeter, sendet seine Segmente</translation>
    </message>
    <message>
        <source>Handheld meter, sends digits and signs</source>
        <translation>Handmultimeter, sendet Ziffern und Zeichen</translation>
    </message>
    <message>
        <source>Handheld meter of 4000 counts</source>
        <translation>Handmultimeter mit Anzeige bis 4000</translation>
    </message>
    <message>
        <source>Handheld meter of 22000 counts</source>
        <translation>Handmultimeter mit Anzeige bis 22000</translation>
    </message>
    <message>
        <source>Handheld meter with two displays</source>
        <translation>Handmultimeter mit zwei Anzeigen</translation>
    </message>
    <message>
        <source>Recording played again</source>
        <translation>Aufzeichnung, erneut abgespielt</translation>
    </message>
    <message>
        <source>Cell voltage</source>
        <translation>Zellspannung</translation>
    </message>
    <message>
        <source>Voltage of a shunt</source>
        <translation>Spannung an einem Shunt</translation>
    </message>
    <message>
        <source>Stack voltage</source>
        <translation>Stapelspannung</translation>
    </message>
    <message>
        <source>Anode potential</source>
        <translation>Anodenpotential</translation>
    </message>
    <message>
        <source>Something else</source>
        <translation>Etwas anderes</translation>
    </message>
    <message>
        <source>Name of the instrument</source>
        <translation>Name des Messgeräts</translation>
    </message>
    <message>
        <source>Name of the channel</source>
        <translation>Name des Kanals</translation>
    </message>
    <message>
        <source>Line speed</source>
        <translation>Baudrate</translation>
    </message>
    <message>
        <source>Column</source>
        <translation>Spalte</translation>
    </message>
    <message>
        <source>Readings a second</source>
        <translation>Messwerte pro Sekunde</translation>
    </message>
    <message>
        <source>Times (divider)</source>
        <translation>Mal (Teiler)</translation>
    </message>
    <message>
        <source>Plus</source>
        <translation>Plus</translation>
    </message>
    <message>
        <source>Times real speed</source>
        <translation>Mal Echtzeit</translation>
    </message>
    <message>
        <source>Seed</source>
        <translation>Startwert</translation>
    </message>
    <message>
        <source>Noise</source>
        <translation>Rauschen</translation>
    </message>
    <message>
        <source>Fault to order</source>
        <translation>Gewünschte Störung</translation>
    </message>
    <message>
        <source>overload</source>
        <translation>Überlauf</translation>
    </message>
    <message>
        <source>opening …</source>
        <translation>wird geöffnet …</translation>
    </message>
    <message>
        <source>has ended</source>
        <translation>ist zu Ende</translation>
    </message>
    <message>
        <source>bytes come, but no reading yet: is the kind right, and the line speed?</source>
        <translation>Es kommen Bytes, aber noch kein Messwert: Stimmen Art und Baudrate?</translation>
    </message>
    <message>
        <source>nothing has come yet: is it switched on, and does it send?</source>
        <translation>Noch ist nichts gekommen: Ist das Gerät eingeschaltet, und sendet es?</translation>
    </message>
    <message>
        <source>{rate} readings/s</source>
        <translation>{rate} Messwerte/s</translation>
    </message>
    <message>
        <source>last reading {age} ago</source>
        <translation>letzter Messwert vor {age}</translation>
    </message>
    <message>
        <source>Calibration of {day}, {count} points: zero {zero}, gain {gain}. It corrects every run.</source>
        <translation>Kalibrierung vom {day}, {count} Punkte: Nullpunkt {zero}, Faktor {gain}. Sie korrigiert jede Messung.</translation>
    </message>
    <message>
        <source>{port}: {kind}, shows {shown}.</source>
        <translation>{port}: {kind}, zeigt {shown}.</translation>
    </message>
    <message>
        <source>{port} can be read in several ways; choose the one that agrees with the display.</source>
        <translation>{port} lässt sich auf mehrere Arten lesen; die wählen, die mit der Anzeige übereinstimmt.</translation>
    </message>
    <message>
        <source>Agrees: read {read}, {difference} from the display.</source>
        <translation>Stimmt überein: gelesen {read}, {difference} von der Anzeige entfernt.</translation>
    </message>
    <message>
        <source>The sign is the other way round: read {read}. Swap the leads, or the kind of meter is wrong.</source>
        <translation>Das Vorzeichen ist umgekehrt: gelesen {read}. Messleitungen tauschen, oder die Art des Messgeräts ist falsch.</translation>
    </message>
    <message>
        <source>Read {read} where the display shows {shown}: the point or the unit is off by a factor of ten or more. Choose another kind of meter; do not record like this.</source>
        <translation>Gelesen {read}, angezeigt {shown}: Komma oder Einheit sind um den Faktor zehn oder mehr verschoben. Eine andere Art von Messgerät wählen; so nicht aufzeichnen.</translation>
    </message>
    <message>
        <source>Read {read}, the display shows {shown}: {difference} apart. Type the display once more while it stands still; if it stays like this, do not record with this kind of meter.</source>
        <translation>Gelesen {read}, angezeigt {shown}: {difference} Unterschied. Die Anzeige noch einmal eintippen, während sie ruhig steht; bleibt es dabei, mit dieser Art von Messgerät nicht aufzeichnen.</translation>
    </message>
    <message>
        <source>Add a source</source>
        <translation>Quelle hinzufügen</translation>
    </message>
    <message>
        <source>Look for ports</source>
        <translation>Anschlüsse suchen</translation>
    </message>
    <message>
        <source>Recognise what is plugged in</source>
        <translation>Angeschlossenes erkennen</translation>
    </message>
    <message>
        <source>There is no source; add one.</source>
        <translation>Es gibt keine Quelle; eine hinzufügen.</translation>
    </message>
    <message>
        <source>The run records this port; see the Run page.</source>
        <translation>Diesen Anschluss benutzt die Messung; siehe Seite Messung.</translation>
    </message>
    <message>
        <source>Listening to all ports for five seconds; nothing is sent …</source>
        <translation>Alle Anschlüsse werden fünf Sekunden lang abgehört; gesendet wird nichts …</translation>
    </message>
    <message>
        <source>No port was found. Plug the instrument in, then listen again.</source>
        <translation>Kein Anschluss gefunden. Das Gerät einstecken, dann noch einmal abhören.</translation>
    </message>
    <message>
        <source>Where readings come from</source>
        <translation>Woher die Messwerte kommen</translation>
    </message>
    <message>
        <source>Sources and form</source>
        <translation>Quellen und Formular</translation>
    </message>
    <message>
        <source>What follows</source>
        <translation>Was daraus folgt</translation>
    </message>
    <message>
        <source>Open …</source>
        <translation>Öffnen …</translation>
    </message>
    <message>
        <source>Save</source>
        <translation>Speichern</translation>
    </message>
    <message>
        <source>Save as …</source>
        <translation>Speichern unter …</translation>
    </message>
    <message>
        <source>Record with this bench</source>
        <translation>Mit diesem Aufbau aufzeichnen</translation>
    </message>
    <message>
        <source>Bench</source>
        <translation>Aufbau</translation>
    </message>
    <message>
        <source>not saved yet</source>
        <translation>noch nicht gespeichert</translation>
    </message>
    <message>
        <source>A run is being recorded; what is changed here counts for the next one.</source>
        <translation>Es läuft eine Messung; was hier geändert wird, gilt für die nächste.</translation>
    </message>
    <message>
        <source>No file yet</source>
        <translation>Noch keine Datei</translation>
    </message>
    <message>
        <source>{file}, changed</source>
        <translation>{file}, geändert</translation>
    </message>
    <message>
        <source>Give the stack and the series resistor, or the held current.</source>
        <translation>Batteriestapel und Vorwiderstand angeben, oder den geregelten Strom.</translation>
    </message>
    <message>
        <source>Open a bench file</source>
        <translation>Aufbau öffnen</translation>
    </message>
    <message>
        <source>Bench files (*.toml)</source>
        <translation>Aufbau-Dateien (*.toml)</translation>
    </message>
    <message>
        <source>Save the bench</source>
        <translation>Aufbau speichern</translation>
    </message>
    <message>
        <source>Bench saved as {file}</source>
        <translation>Aufbau gespeichert als {file}</translation>
    </message>
    <message>
        <source>A field of the bench is marked; mend or empty it first.</source>
        <translation>Ein Feld des Aufbaus ist markiert; erst verbessern oder leeren.</translation>
    </message>
    <message>
        <source>A port is not given back yet. Wait a few seconds and try again.</source>
        <translation>Ein Anschluss ist noch nicht frei. Einige Sekunden warten und noch einmal versuchen.</translation>
    </message>
</context>
<context>
    <name>Cautions</name>
    <message>
        <source>Cautions</source>
        <translation>Sicherheitshinweise</translation>
    </message>
    <message>
        <source>Back (Esc)</source>
        <translation>Zurück (Esc)</translation>
    </message>
</context>
<context>
    <name>Chart</name>
    <message>
        <source>{voltage} before</source>
        <translation>{voltage} vorher</translation>
    </message>
    <message>
        <source>saved so far</source>
        <translation>bisher eingespart</translation>
    </message>
    <message>
        <source>saved</source>
        <translation>eingespart</translation>
    </message>
    <message>
        <source>{voltage} before, chosen by hand</source>
        <translation>{voltage} vorher, von Hand gewählt</translation>
    </message>
    <message>
        <source>{voltage} after</source>
        <translation>{voltage} nachher</translation>
    </message>
    <message>
        <source>{voltage} after, chosen by hand</source>
        <translation>{voltage} nachher, von Hand gewählt</translation>
    </message>
    <message>
        <source>beyond range</source>
        <translation>außerhalb</translation>
    </message>
</context>
<context>
    <name>Close question</name>
    <message>
        <source>End the run?</source>
        <translation>Messung beenden?</translation>
    </message>
    <message>
        <source>End it and save it, or go on recording?</source>
        <translation>Beenden und speichern, oder weiter aufzeichnen?</translation>
    </message>
    <message>
        <source>Stop and save</source>
        <translation>Beenden und speichern</translation>
    </message>
    <message>
        <source>Keep recording</source>
        <translation>Weiter aufzeichnen</translation>
    </message>
    <message>
        <source>The recording has been running for {time}.</source>
        <translation>Die Aufzeichnung läuft seit {time}.</translation>
    </message>
</context>
<context>
    <name>Demo</name>
    <message>
        <source>Simulated lesson</source>
        <translation>Simulierte Unterrichtsstunde</translation>
    </message>
    <message>
        <source>0.1 mol/L potassium phosphate</source>
        <translation>0,1 mol/L Kaliumphosphat</translation>
    </message>
    <message>
        <source>Connect everything, cell dry</source>
        <translation>Alles anschließen, Zelle trocken</translation>
    </message>
    <message>
        <source>Pour in the buffer</source>
        <translation>Puffer einfüllen</translation>
    </message>
    <message>
        <source>Add the metal salt</source>
        <translation>Metallsalz zugeben</translation>
    </message>
    <message>
        <source>Lift the electrodes out</source>
        <translation>Elektroden herausheben</translation>
    </message>
    <message>
        <source>Swap in fresh buffer</source>
        <translation>Frischen Puffer einfüllen</translation>
    </message>
    <message>
        <source>Put the electrodes back in</source>
        <translation>Elektroden wieder eintauchen</translation>
    </message>
</context>
<context>
    <name>Export</name>
    <message>
        <source>Tables with description (CSV)</source>
        <translation>Tabellen mit Beschreibung (CSV)</translation>
    </message>
    <message>
        <source>Spreadsheet with chart (XLSX)</source>
        <translation>Tabellenblatt mit Diagramm (XLSX)</translation>
    </message>
    <message>
        <source>Picture (PNG)</source>
        <translation>Bild (PNG)</translation>
    </message>
    <message>
        <source>Picture to enlarge (SVG)</source>
        <translation>Vergrößerbares Bild (SVG)</translation>
    </message>
    <message>
        <source>Report of one page (PDF)</source>
        <translation>Bericht auf einer Seite (PDF)</translation>
    </message>
    <message>
        <source>Report for the browser (HTML)</source>
        <translation>Bericht für den Browser (HTML)</translation>
    </message>
    <message>
        <source>Table for data frames (Parquet)</source>
        <translation>Tabelle für Auswerteprogramme (Parquet)</translation>
    </message>
    <message>
        <source>As {ending}</source>
        <translation>Als {ending}</translation>
    </message>
    <message>
        <source>Export</source>
        <translation>Exportieren</translation>
    </message>
</context>
<context>
    <name>Export question</name>
    <message>
        <source>Cancel the export?</source>
        <translation>Export abbrechen?</translation>
    </message>
    <message>
        <source>Cancel it and close</source>
        <translation>Abbrechen und schließen</translation>
    </message>
    <message>
        <source>Go on writing</source>
        <translation>Weiter schreiben</translation>
    </message>
    <message>
        <source>An export is still being written.</source>
        <translation>Ein Export wird noch geschrieben.</translation>
    </message>
    <message>
        <source>The recording itself is saved. Cancelled, it leaves no file.</source>
        <translation>Die Aufzeichnung selbst ist gespeichert. Beim Abbrechen bleibt keine Datei zurück.</translation>
    </message>
</context>
<context>
    <name>Findings</name>
    <message>
        <source>type {letter}</source>
        <translation>Typ {letter}</translation>
    </message>
    <message>
        <source>Written: {names}, in {folder}</source>
        <translation>Geschrieben: {names}, in {folder}</translation>
    </message>
    <message>
        <source>Cancelled: {name} was not written.</source>
        <translation>Abgebrochen: {name} wurde nicht geschrieben.</translation>
    </message>
    <message>
        <source>{name} is there already; choose another name.</source>
        <translation>{name} gibt es schon; einen anderen Namen wählen.</translation>
    </message>
    <message>
        <source>How far {name} is written</source>
        <translation>Wie weit {name} geschrieben ist</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Abbrechen</translation>
    </message>
    <message>
        <source>Cancel {name}</source>
        <translation>{name} abbrechen</translation>
    </message>
    <message>
        <source>Cancelling {name} …</source>
        <translation>{name} wird abgebrochen …</translation>
    </message>
    <message>
        <source>Waiting: {name}</source>
        <translation>Wartet: {name}</translation>
    </message>
    <message>
        <source>Preparing {name} …</source>
        <translation>{name} wird vorbereitet …</translation>
    </message>
    <message>
        <source>Writing {name}: {percent}&#xa0;%</source>
        <translation>{name} wird geschrieben: {percent}&#xa0;%</translation>
    </message>
    <message>
        <source>Growth and fitted curve</source>
        <translation>Wachstum und angepasste Kurve</translation>
    </message>
    <message>
        <source>Readings less fit</source>
        <translation>Messwerte minus Anpassung</translation>
    </message>
    <message>
        <source>Voltage over current, Tafel line</source>
        <translation>Spannung über Strom, Tafel-Gerade</translation>
    </message>
    <message>
        <source>Cell voltage, V</source>
        <translation>Zellspannung, V</translation>
    </message>
    <message>
        <source>Readings less fit, mV</source>
        <translation>Messwerte minus Anpassung, mV</translation>
    </message>
    <message>
        <source>Current, mA</source>
        <translation>Strom, mA</translation>
    </message>
    <message>
        <source>since the salt</source>
        <translation>seit der Salzzugabe</translation>
    </message>
    <message>
        <source>These readings could not be judged: {why}</source>
        <translation>Diese Messwerte ließen sich nicht beurteilen: {why}</translation>
    </message>
    <message>
        <source>No warnings.</source>
        <translation>Keine Warnungen.</translation>
    </message>
    <message>
        <source>Warning</source>
        <translation>Warnung</translation>
    </message>
    <message>
        <source>Go to the bench</source>
        <translation>Zum Aufbau</translation>
    </message>
    <message>
        <source>Before</source>
        <translation>Vorher</translation>
    </message>
    <message>
        <source>After</source>
        <translation>Nachher</translation>
    </message>
    <message>
        <source>Take the program&apos;s stretches again</source>
        <translation>Wieder die Abschnitte des Programms</translation>
    </message>
    <message>
        <source>Drag the green grips on the curve, or type begin and end (minutes:seconds) and Return.</source>
        <translation>Die grünen Griffe an der Kurve ziehen, oder Anfang und Ende eintippen (Minuten:Sekunden) und Eingabetaste.</translation>
    </message>
    <message>
        <source>begin</source>
        <translation>Anfang</translation>
    </message>
    <message>
        <source>end</source>
        <translation>Ende</translation>
    </message>
    <message>
        <source>Chosen by hand: {names}.</source>
        <translation>Von Hand gewählt: {names}.</translation>
    </message>
    <message>
        <source>{start}, {length} long, {count} readings</source>
        <translation>{start}, {length} lang, {count} Messwerte</translation>
    </message>
    <message>
        <source>not determined</source>
        <translation>nicht bestimmt</translation>
    </message>
    <message>
        <source>The warnings below say why, and what would help.</source>
        <translation>Die Warnungen unten sagen, warum, und was helfen würde.</translation>
    </message>
    <message>
        <source>95 % interval.</source>
        <translation>95-%-Intervall.</translation>
    </message>
    <message>
        <source>At equal current {value}.</source>
        <translation>Bei gleichem Strom {value}.</translation>
    </message>
    <message>
        <source>Provisional: not both levels had settled.</source>
        <translation>Vorläufig: nicht beide Spannungen waren eingeschwungen.</translation>
    </message>
    <message>
        <source>With a stretch chosen by hand.</source>
        <translation>Mit einem von Hand gewählten Abschnitt.</translation>
    </message>
    <message>
        <source>of {voltage}</source>
        <translation>von {voltage}</translation>
    </message>
    <message>
        <source>Current</source>
        <translation>Strom</translation>
    </message>
    <message>
        <source>Voltage efficiency</source>
        <translation>Spannungswirkungsgrad</translation>
    </message>
    <message>
        <source>Charge</source>
        <translation>Ladung</translation>
    </message>
    <message>
        <source>Hydrogen</source>
        <translation>Wasserstoff</translation>
    </message>
    <message>
        <source>At {time}: </source>
        <translation>Bei {time}: </translation>
    </message>
    <message>
        <source>Without a voltage saved there is no budget.</source>
        <translation>Ohne eingesparte Spannung gibt es kein Unsicherheitsbudget.</translation>
    </message>
    <message>
        <source>Standard uncertainty {standard}, times {factor} for 95 %: ± {expanded}. Bars show each source&apos;s share of the variance; type A from the readings, B from what is known.</source>
        <translation>Standardunsicherheit {standard}, mal {factor} für 95 %: ± {expanded}. Die Balken zeigen den Anteil jeder Quelle an der Varianz; Typ A aus den Messwerten, B aus sonst Bekanntem.</translation>
    </message>
    <message>
        <source>There is no growth to fit.</source>
        <translation>Es gibt kein Wachstum anzupassen.</translation>
    </message>
    <message>
        <source>Described by: {model}.</source>
        <translation>Beschrieben durch: {model}.</translation>
    </message>
    <message>
        <source>What is left is {times} times the noise: the curve has another shape.</source>
        <translation>Was bleibt, ist {times}-mal das Rauschen: die Kurve hat eine andere Form.</translation>
    </message>
    <message>
        <source>What is left is noise ({times} times what the readings show).</source>
        <translation>Was bleibt, ist Rauschen ({times}-mal das der Messwerte).</translation>
    </message>
    <message>
        <source>not followed long enough to say</source>
        <translation>nicht lange genug verfolgt, um es zu sagen</translation>
    </message>
    <message>
        <source>Would settle at</source>
        <translation>Würde einschwingen bei</translation>
    </message>
    <message>
        <source>A Tafel line needs settled voltages at four currents or more: change the resistor.</source>
        <translation>Eine Tafel-Gerade braucht eingeschwungene Spannungen bei vier oder mehr Strömen: den Widerstand wechseln.</translation>
    </message>
    <message>
        <source>Slope {slope} for a decade of current, of both electrodes together (95 %).</source>
        <translation>Steigung {slope} pro Stromdekade, für beide Elektroden zusammen (95 %).</translation>
    </message>
    <message>
        <source>with {ohm}</source>
        <translation>mit {ohm}</translation>
    </message>
    <message>
        <source>Ohmic resistance</source>
        <translation>Ohmscher Widerstand</translation>
    </message>
    <message>
        <source>Settling voltage of the fit</source>
        <translation>Endspannung der Anpassung</translation>
    </message>
    <message>
        <source>Fall</source>
        <translation>Abfall</translation>
    </message>
    <message>
        <source>First fall</source>
        <translation>Erster Abfall</translation>
    </message>
    <message>
        <source>Second fall</source>
        <translation>Zweiter Abfall</translation>
    </message>
    <message>
        <source>Time constant</source>
        <translation>Zeitkonstante</translation>
    </message>
    <message>
        <source>First time constant</source>
        <translation>Erste Zeitkonstante</translation>
    </message>
    <message>
        <source>Second time constant</source>
        <translation>Zweite Zeitkonstante</translation>
    </message>
    <message>
        <source>Stretching exponent</source>
        <translation>Streckungsexponent</translation>
    </message>
    <message>
        <source>Voltage at the salt</source>
        <translation>Spannung bei der Salzzugabe</translation>
    </message>
    <message>
        <source>Slope for a decade of time</source>
        <translation>Steigung pro Zeitdekade</translation>
    </message>
    <message>
        <source>Onset</source>
        <translation>Beginn</translation>
    </message>
    <message>
        <source>settled, chosen by hand</source>
        <translation>eingeschwungen, von Hand gewählt</translation>
    </message>
    <message>
        <source>not settled, chosen by hand</source>
        <translation>nicht eingeschwungen, von Hand gewählt</translation>
    </message>
    <message>
        <source>settled, meter included</source>
        <translation>eingeschwungen, mit Messgerät</translation>
    </message>
    <message>
        <source>not settled, meter included</source>
        <translation>nicht eingeschwungen, mit Messgerät</translation>
    </message>
    <message>
        <source>Copy picture</source>
        <translation>Bild kopieren</translation>
    </message>
    <message>
        <source>Copy the picture to paste it elsewhere (Ctrl+C)</source>
        <translation>Das Bild kopieren, um es anderswo einzufügen (Strg+C)</translation>
    </message>
    <message>
        <source>Export …</source>
        <translation>Exportieren …</translation>
    </message>
    <message>
        <source>Show folder</source>
        <translation>Ordner zeigen</translation>
    </message>
    <message>
        <source>Cautions</source>
        <translation>Sicherheit</translation>
    </message>
    <message>
        <source>Voltage saved</source>
        <translation>Eingesparte Spannung</translation>
    </message>
    <message>
        <source>Result</source>
        <translation>Ergebnis</translation>
    </message>
    <message>
        <source>How sure</source>
        <translation>Wie sicher</translation>
    </message>
    <message>
        <source>Growth</source>
        <translation>Wachstum</translation>
    </message>
    <message>
        <source>Tafel</source>
        <translation>Tafel</translation>
    </message>
    <message>
        <source>Stretches</source>
        <translation>Abschnitte</translation>
    </message>
    <message>
        <source>Moments</source>
        <translation>Momente</translation>
    </message>
    <message>
        <source>Voltage saved: {value}</source>
        <translation>Eingesparte Spannung: {value}</translation>
    </message>
    <message>
        <source>The choice is not kept in the file: {why}.</source>
        <translation>Die Wahl wird nicht in der Datei behalten: {why}.</translation>
    </message>
    <message>
        <source>The picture is in the clipboard; paste it where you like.</source>
        <translation>Das Bild ist in der Zwischenablage; jetzt beliebig einfügen.</translation>
    </message>
    <message>
        <source>give times within {begin} to {end}, at least {shortest} apart</source>
        <translation>Zeiten zwischen {begin} und {end} angeben, mindestens {shortest} auseinander</translation>
    </message>
</context>
<context>
    <name>Header</name>
    <message>
        <source>Cautions</source>
        <translation>Sicherheitshinweise</translation>
    </message>
    <message>
        <source>not recording</source>
        <translation>zeichnet nicht auf</translation>
    </message>
    <message>
        <source>opening</source>
        <translation>wird geöffnet</translation>
    </message>
    <message>
        <source>saving</source>
        <translation>wird gespeichert</translation>
    </message>
    <message>
        <source>saved</source>
        <translation>gespeichert</translation>
    </message>
    <message>
        <source>not saved</source>
        <translation>nicht gespeichert</translation>
    </message>
    <message>
        <source>Run begun at {time}</source>
        <translation>Messung von {time} Uhr</translation>
    </message>
    <message>
        <source>Simulated, invented data</source>
        <translation>Simuliert, erfundene Daten</translation>
    </message>
    <message>
        <source>Recording shown</source>
        <translation>Gezeigte Aufzeichnung</translation>
    </message>
    <message>
        <source>Menu</source>
        <translation>Menü</translation>
    </message>
    <message>
        <source>Page {name}</source>
        <translation>Seite {name}</translation>
    </message>
    <message>
        <source>Simulated</source>
        <translation>Simuliert</translation>
    </message>
    <message>
        <source>Source of the readings</source>
        <translation>Quelle der Messwerte</translation>
    </message>
</context>
<context>
    <name>Help</name>
    <message>
        <source>First run in ten steps</source>
        <translation>Erste Messung in zehn Schritten</translation>
    </message>
    <message>
        <source>What each number means</source>
        <translation>Was jede Zahl bedeutet</translation>
    </message>
    <message>
        <source>Wiring</source>
        <translation>Verdrahtung</translation>
    </message>
    <message>
        <source>Cautions</source>
        <translation>Sicherheitshinweise</translation>
    </message>
    <message>
        <source>Keyboard</source>
        <translation>Tastatur</translation>
    </message>
    <message>
        <source>When something is odd</source>
        <translation>Wenn etwas nicht stimmt</translation>
    </message>
    <message>
        <source>Batteries</source>
        <translation>Batterien</translation>
    </message>
    <message>
        <source>Fuse</source>
        <translation>Sicherung</translation>
    </message>
    <message>
        <source>Resistor</source>
        <translation>Vorwiderstand</translation>
    </message>
    <message>
        <source>Anode</source>
        <translation>Anode</translation>
    </message>
    <message>
        <source>Cathode</source>
        <translation>Kathode</translation>
    </message>
    <message>
        <source>Cell, open vessel</source>
        <translation>Zelle, Gefäß offen</translation>
    </message>
    <message>
        <source>Meter</source>
        <translation>Messgerät</translation>
    </message>
    <message>
        <source>0 to 9</source>
        <translation>0 bis 9</translation>
    </message>
    <message>
        <source>Tag a moment of the kind with that number</source>
        <translation>Einen Moment der Art mit dieser Ziffer festhalten</translation>
    </message>
    <message>
        <source>Tab, Shift+Tab</source>
        <translation>Tab, Umschalt+Tab</translation>
    </message>
    <message>
        <source>To the next control, to the one before</source>
        <translation>Zum nächsten Bedienelement, zum vorigen</translation>
    </message>
    <message>
        <source>← →</source>
        <translation>← →</translation>
    </message>
    <message>
        <source>On the curve: earlier, later</source>
        <translation>Auf der Kurve: früher, später</translation>
    </message>
    <message>
        <source>On the curve: less time, more time</source>
        <translation>Auf der Kurve: weniger Zeit, mehr Zeit</translation>
    </message>
    <message>
        <source>End</source>
        <translation>Ende</translation>
    </message>
    <message>
        <source>On the curve: follow the newest readings</source>
        <translation>Auf der Kurve: den neuesten Messwerten folgen</translation>
    </message>
    <message>
        <source>Space</source>
        <translation>Leertaste</translation>
    </message>
    <message>
        <source>On the shelf: tick a recording</source>
        <translation>In der Sammlung: eine Aufzeichnung ankreuzen</translation>
    </message>
    <message>
        <source>Return</source>
        <translation>Eingabe</translation>
    </message>
    <message>
        <source>On the shelf: show the findings</source>
        <translation>In der Sammlung: die Ergebnisse zeigen</translation>
    </message>
    <message>
        <source>On the findings: copy the picture</source>
        <translation>Bei den Ergebnissen: das Bild kopieren</translation>
    </message>
    <message>
        <source>Everywhere</source>
        <translation>Überall</translation>
    </message>
    <message>
        <source>In places</source>
        <translation>An bestimmten Stellen</translation>
    </message>
    <message>
        <source>Topics</source>
        <translation>Themen</translation>
    </message>
    <message>
        <source>Text of the topic</source>
        <translation>Text des Themas</translation>
    </message>
    <message>
        <source>Help</source>
        <translation>Hilfe</translation>
    </message>
</context>
<context>
    <name>Key button</name>
    <message>
        <source>{hint} Key: {key}</source>
        <translation>{hint} Taste: {key}</translation>
    </message>
</context>
<context>
    <name>Keys</name>
    <message>
        <source>Space</source>
        <translation>Leertaste</translation>
    </message>
</context>
<context>
    <name>Kinds</name>
    <message>
        <source>Dry cell</source>
        <translation>Zelle trocken</translation>
    </message>
    <message>
        <source>Buffer in</source>
        <translation>Puffer eingefüllt</translation>
    </message>
    <message>
        <source>Stirring on</source>
        <translation>Rührer an</translation>
    </message>
    <message>
        <source>Stirring off</source>
        <translation>Rührer aus</translation>
    </message>
    <message>
        <source>Electrodes out</source>
        <translation>Elektroden heraus</translation>
    </message>
    <message>
        <source>Electrodes in</source>
        <translation>Elektroden eingetaucht</translation>
    </message>
    <message>
        <source>Salt added</source>
        <translation>Salz zugegeben</translation>
    </message>
    <message>
        <source>Solution swapped</source>
        <translation>Lösung gewechselt</translation>
    </message>
    <message>
        <source>Resistor changed</source>
        <translation>Widerstand gewechselt</translation>
    </message>
    <message>
        <source>Lead lifted</source>
        <translation>Leitung abgezogen</translation>
    </message>
    <message>
        <source>Lead back</source>
        <translation>Leitung wieder dran</translation>
    </message>
    <message>
        <source>Temperature</source>
        <translation>Temperatur</translation>
    </message>
    <message>
        <source>Photo</source>
        <translation>Foto</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Notiz</translation>
    </message>
</context>
<context>
    <name>Live panel</name>
    <message>
        <source>State of the cell</source>
        <translation>Zustand der Zelle</translation>
    </message>
    <message>
        <source>Drift and verdict</source>
        <translation>Drift und Urteil</translation>
    </message>
    <message>
        <source>no new reading, last {age}</source>
        <translation>kein neuer Messwert, letzter {age}</translation>
    </message>
    <message>
        <source>Drift over {window}, against the settling limit</source>
        <translation>Drift über {window}, gegen die Einschwinggrenze</translation>
    </message>
    <message>
        <source>Drift, against the settling limit</source>
        <translation>Drift, gegen die Einschwinggrenze</translation>
    </message>
    <message>
        <source>the last readings</source>
        <translation>die letzten Messwerte</translation>
    </message>
    <message>
        <source>the last {time}</source>
        <translation>die letzten {time}</translation>
    </message>
    <message>
        <source>Voltage now</source>
        <translation>Spannung jetzt</translation>
    </message>
    <message>
        <source>Drift against the settling limit</source>
        <translation>Drift gegen die Einschwinggrenze</translation>
    </message>
    <message>
        <source>Drift not known, limit {limit}</source>
        <translation>Drift nicht bekannt, Grenze {limit}</translation>
    </message>
    <message>
        <source>Drift {drift} millivolts a minute, limit {limit}</source>
        <translation>Drift {drift} Millivolt pro Minute, Grenze {limit}</translation>
    </message>
</context>
<context>
    <name>Live texts</name>
    <message>
        <source>over</source>
        <translation>über</translation>
    </message>
    <message>
        <source>{time} ago</source>
        <translation>vor {time}</translation>
    </message>
    <message>
        <source>no drift yet</source>
        <translation>noch keine Drift</translation>
    </message>
    <message>
        <source>settled</source>
        <translation>eingeschwungen</translation>
    </message>
    <message>
        <source>not settled yet, about {time} more</source>
        <translation>noch nicht eingeschwungen, noch etwa {time}</translation>
    </message>
    <message>
        <source>not settled yet</source>
        <translation>noch nicht eingeschwungen</translation>
    </message>
    <message>
        <source>cannot tell yet</source>
        <translation>noch nicht zu sagen</translation>
    </message>
    <message>
        <source>{change} since before</source>
        <translation>{change} seit vorher</translation>
    </message>
    <message>
        <source>Current</source>
        <translation>Strom</translation>
    </message>
    <message>
        <source>Charge</source>
        <translation>Ladung</translation>
    </message>
    <message>
        <source>Hydrogen</source>
        <translation>Wasserstoff</translation>
    </message>
    <message>
        <source>Voltage efficiency</source>
        <translation>Spannungswirkungsgrad</translation>
    </message>
    <message>
        <source>moist</source>
        <translation>feucht</translation>
    </message>
    <message>
        <source>of {voltage}</source>
        <translation>von {voltage}</translation>
    </message>
    <message>
        <source>{time} running</source>
        <translation>läuft seit {time}</translation>
    </message>
    <message>
        <source>saved to disk {age}</source>
        <translation>gespeichert {age}</translation>
    </message>
    <message>
        <source>no source</source>
        <translation>keine Quelle</translation>
    </message>
    <message>
        <source>Simulated cell</source>
        <translation>Simulierte Zelle</translation>
    </message>
    <message>
        <source>{rate}&#xa0;readings/s</source>
        <translation>{rate}&#xa0;Messwerte/s</translation>
    </message>
    <message>
        <source>last {age}</source>
        <translation>letzter {age}</translation>
    </message>
    <message>
        <source>connecting</source>
        <translation>verbindet</translation>
    </message>
    <message>
        <source>sends nothing</source>
        <translation>sendet nichts</translation>
    </message>
    <message>
        <source>gone, trying again</source>
        <translation>weg, wird wieder versucht</translation>
    </message>
    <message>
        <source>has ended</source>
        <translation>ist zu Ende</translation>
    </message>
</context>
<context>
    <name>Menu</name>
    <message>
        <source>As the system</source>
        <translation>Wie das System</translation>
    </message>
    <message>
        <source>Silence the alarm</source>
        <translation>Alarm abstellen</translation>
    </message>
    <message>
        <source>Sound</source>
        <translation>Ton</translation>
    </message>
    <message>
        <source>Copy details for a report</source>
        <translation>Einzelheiten für eine Meldung kopieren</translation>
    </message>
    <message>
        <source>Quit</source>
        <translation>Beenden</translation>
    </message>
    <message>
        <source>Tag a moment</source>
        <translation>Moment festhalten</translation>
    </message>
    <message>
        <source>Tag a moment of a kind …</source>
        <translation>Moment einer Art festhalten …</translation>
    </message>
    <message>
        <source>Words for the last moment</source>
        <translation>Worte zum letzten Moment</translation>
    </message>
    <message>
        <source>Move it to the step of the voltage</source>
        <translation>Zur Stufe der Spannung verschieben</translation>
    </message>
    <message>
        <source>Undo</source>
        <translation>Rückgängig</translation>
    </message>
    <message>
        <source>Redo</source>
        <translation>Wiederherstellen</translation>
    </message>
    <message>
        <source>Follow, or stand still</source>
        <translation>Folgen oder stehen bleiben</translation>
    </message>
    <message>
        <source>Whole run</source>
        <translation>Ganze Messung</translation>
    </message>
    <message>
        <source>Stop and save</source>
        <translation>Beenden und speichern</translation>
    </message>
    <message>
        <source>Run sheet</source>
        <translation>Ablaufplan</translation>
    </message>
    <message>
        <source>Next step</source>
        <translation>Nächster Schritt</translation>
    </message>
    <message>
        <source>Skip the next step</source>
        <translation>Nächsten Schritt überspringen</translation>
    </message>
    <message>
        <source>Repeat the last step</source>
        <translation>Letzten Schritt wiederholen</translation>
    </message>
    <message>
        <source>Change the steps …</source>
        <translation>Schritte ändern …</translation>
    </message>
    <message>
        <source>Open recordings …</source>
        <translation>Aufzeichnungen öffnen …</translation>
    </message>
    <message>
        <source>Save picture</source>
        <translation>Bild speichern</translation>
    </message>
    <message>
        <source>Simulated lesson again</source>
        <translation>Simulierte Stunde noch einmal</translation>
    </message>
    <message>
        <source>Second copy of this run …</source>
        <translation>Zweite Kopie dieser Messung …</translation>
    </message>
    <message>
        <source>Live file for other programs, from the next run on</source>
        <translation>Mitlesedatei für andere Programme, ab der nächsten Messung</translation>
    </message>
    <message>
        <source>View for the wall</source>
        <translation>Großanzeige</translation>
    </message>
    <message>
        <source>Cautions</source>
        <translation>Sicherheitshinweise</translation>
    </message>
    <message>
        <source>Light</source>
        <translation>Hell</translation>
    </message>
    <message>
        <source>Dark</source>
        <translation>Dunkel</translation>
    </message>
    <message>
        <source>Colours</source>
        <translation>Farben</translation>
    </message>
</context>
<context>
    <name>Messages</name>
    <message>
        <source>before</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>after</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>growth</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>dry</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>exponential</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>logarithmic</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>power</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>forward</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>back</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>and</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>(simulated)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source> Addresses to choose from: {ways}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source> It is older than a year: accuracy not verified.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source> It reads {shown}: does the display agree?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source> No line ends.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>, now on {now}; the run goes on</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>0.01 to 1000 mV/min can be told from noise and are worth waiting for</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>0.1 mg to 10 g of salt are expected</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>5 s to 2 h are worth judging</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; did you mean {near}?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; the run goes on</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; the two voltages could not be compared at all</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>= {clean_label} is no time to hold</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>= {current_a} on {anode_area_cm2} cm2 makes {density} mA/cm2</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>= {kind} is no kind of moment</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>= {resistor_rating_w} is too small, {reason}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>= {resolution_v} is more than a tenth of the range</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>= {salt_mass_mg} in {volume_ml} mL is more than 1 mol/L</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>= {shown} is impossible, {reason}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>= {shown} looks like {slips}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>= {shown} must be a whole number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A Tafel slope needs settled voltages with four or more resistors over a decade of current; tag each change of the resistor with its ohms.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A Tafel slope needs settled voltages with {fewest_points} or more resistors; {best} settled.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A Tafel slope needs {missing} in the bench file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A Tafel slope of {slope_v} mV per decade lies outside the {low_v} to {high_v} mV that {electrodes} electrode(s) are known for; look for points that had not settled, a wrong resistor or stack voltage, or an ohmic drop left out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A catalyst may need minutes before it shows.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A dry cell puts {reading_v} V on the meter. Make sure that it bears that (converter boards bear {low_v} to {high_v} V and need a divider), and give [meter] range_V.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A fault of the program: {error}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A frame was not recorded: {why}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A stack shorted without its resistor gives amperes and burns. Insulate the terminals, put a fuse at the battery, never recharge primary cells, and take the leads off before changing the wiring. Extra-low voltage only; no home-made supply on the mains.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A supply that holds the current shows its highest voltage on a dry cell: set its voltage limit to what the meter bears, and never above 60 V.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A temperature was not used. {refusal}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>AC and DC volts together</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>AC volts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Acknowledging stopped: {error}. Recording goes on.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>After the lift-out no electrolysis in new solution was seen.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>All {size} readings are {values} V: the meter holds its display, or is not connected to the cell. Nothing is concluded from them. Release HOLD, check the leads, and record again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An open cell would read only {reading_v} V, which cannot be told from a poor contact; tag every lift-out, or take more batteries.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Application Support</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Assumed for the current: {assumed}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Assumed: {words}. Give temperature_C and pressure_kPa in the bench file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Both gases rise from the same vessel, and their mixture burns from about 4 % hydrogen in air; the faintest spark is enough. Never close the vessel, never collect the gas, air the room, keep flames and sparks away, and do not pull a lead under a space filled with gas.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Buffer in</source>
        <translation type="unfinished">Puffer eingefüllt</translation>
    </message>
    <message>
        <source>Bytes arrive damaged (wrong parity); those readings are kept but marked. Check the cable, and keep bright light off an optical one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cobalt and nickel salts can cause cancer when breathed in, sensitise skin and lungs, may harm reproduction, and are very toxic to life in water. Follow the supplier&apos;s safety data sheet; use solutions made up by a qualified person; gloves and eye protection; no dust; never down the drain: collect them as heavy-metal waste. Many schools restrict or forbid them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Current, charge and gas need {missing} in the bench file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Data arrive from {port} but cannot be understood.{no_end} {speed_hint}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Data arrive from {port} but hold no packet: {speed}the board sends something else (galvanote sources).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Data arrive from {port} but hold no {kind} frame: {byte_time_s}the meter may be of another kind (galvanote sources).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Dry cell</source>
        <translation type="unfinished">Zelle trocken</translation>
    </message>
    <message>
        <source>Electrodes in</source>
        <translation type="unfinished">Elektroden eingetaucht</translation>
    </message>
    <message>
        <source>Electrodes out</source>
        <translation type="unfinished">Elektroden heraus</translation>
    </message>
    <message>
        <source>Faradaic efficiency</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Folded the last edits into {recording}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>For the saving at equal current were assumed: {assumed}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How a meter of the kind {kind} sends ({doubt}) is known from memory only. Compare once: does the display show {shown}?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Hydrogen and oxygen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Is it a board that prints lines?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It can be read in more than one way ({ways}). Take the one that agrees with the display.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It can get hot, above all while the electrodes touch. Let it cool before you hold it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It has only just begun.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It reads {shown}. Does its display agree?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lead back</source>
        <translation type="unfinished">Leitung wieder dran</translation>
    </message>
    <message>
        <source>Lead lifted</source>
        <translation type="unfinished">Leitung abgezogen</translation>
    </message>
    <message>
        <source>Mean and median {name} differ by {spread_v} mV: {window}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Metal salts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No Tafel slope was found. {refusal}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No Tafel slope was found: the voltage does not rise with the current. Check the ohms of the labels and of the bench file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No blank is in the statistics. Warming, ageing electrodes or the fresh buffer can save voltage too; run at least one with the same handling and no salt.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No calibration is applied: {error}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No data from {address} for {silent_s} s although it is open. Is the meter asleep or the cable off? Switch it on and press its transmit key.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No effect is shown: the change is within two standard uncertainties.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No model describes the growth: the best one ({name}) leaves {misfit} times the noise. Its parameters only sum up the curve; no time constant is claimed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No moment says when the buffer came in; the voltage shows it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No moment says when the electrodes went back in; the voltage shows it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No moment says when the salt was added; the voltage began to fall here. Warming or a change of stirring can look the same.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No moment says when the solution was swapped; the voltage shows a lift-out.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No reading for {silent_s} s. Check the meter and its cable.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No readings come from the meter.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No run with salt is in the statistics.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No salt was tagged and no lasting fall of the voltage was seen: taken as a run without it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No salt water: it can give off chlorine. Steel that holds nickel or chromium can dissolve. Buffers and caustic mist hurt eyes: wear protection, wash your hands, label every beaker.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No settled voltage {name}. {refusal}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No swap to fresh buffer was tagged or seen, so there is no voltage after. Lift the electrodes out for some seconds when swapping, or tag the swap.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No voltage: the electrodes touch, or nothing is switched on.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nobody is listening at {port}. Start the serial server or emulator there, or check the number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not recorded: the board uses range {unknown}, and nothing tells what it is in volts.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not recorded: {problem}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not recorded: {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing arrives from {port}. Is the board on, and does its program send packets?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing arrives from {port}. Switch the meter on and press its transmit key (often held for two seconds; the display then shows RS232 or a similar sign). Check that the cable sits right.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing arrives, however the lines of the port stand. Is the cable seated on the meter, the meter on, and sending (a long press of its transmit key)?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing arrives. Switch the instrument on; a handheld meter sends only after a long press of its transmit key, through an optical cable perhaps only with: galvanote sources --optical {port}. A meter that answers questions has to be asked: galvanote sources --ask {port}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>On the way down the voltage was {offset_v} mV off the way up: the electrodes changed meanwhile, or had not settled.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>On {port} is now another device than the one this run was begun with. Plug that one in again, or end the run and begin a new one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>On {port} now answers {identity}, but this run was begun with {identity_2}. Put that one back, or end the run and begin a new one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One blank does not show how much blanks scatter; make two or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Other solutions and electrodes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Packets from {port} arrive damaged and are not used. Check cable and speed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Packets of an unknown form arrive. Is the board&apos;s program newer than this one?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Readings are missing or too rare in the last minutes.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Recognised by listening: {address}.{value}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Recovered {recording}, up to a damaged spot. More of the run lies behind it and could not be read in order: it is kept in {journal}. Copy that file to a safe place.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Resistor changed</source>
        <translation type="unfinished">Widerstand gewechselt</translation>
    </message>
    <message>
        <source>Salt added</source>
        <translation type="unfinished">Salz zugegeben</translation>
    </message>
    <message>
        <source>Solution swapped</source>
        <translation type="unfinished">Lösung gewechselt</translation>
    </message>
    <message>
        <source>Something could not be recorded: {error}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Splitting water in fresh buffer. The voltage has settled: the run can end.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Splitting water in fresh buffer. The voltage is still settling.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Splitting water while the catalyst grows.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Splitting water.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Splitting water. The catalyst has grown: the voltage no longer falls.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Splitting water. The voltage has settled.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Splitting water. The voltage has settled: the salt can go in.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Splitting water. The voltage is still falling while the catalyst grows.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Splitting water. The voltage is still settling.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stirring off</source>
        <translation type="unfinished">Rührer aus</translation>
    </message>
    <message>
        <source>Stirring on</source>
        <translation type="unfinished">Rührer an</translation>
    </message>
    <message>
        <source>Tafel slope in V per decade</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Tafel slopes of {slope} ± {spread} mV per decade together</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>That the {words} are the same could not be checked for {unknown}; give them in the bench file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The Tafel slope is indicative only: {currents} currents over {decades} decades; {fewest_currents} over one decade are wanted.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The bench file corrects the meter (zero_V, gain); the calibration that is kept for it is therefore not applied.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The bench file in the recording was not used: {error}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The board dropped {dropped} samples before it could send them. Lower its rate.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The board on {port} declares other ranges or dividers than before. Readings from now on follow them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The board on {port} restarted; its clock begins anew. Check its supply.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The board on {port}: {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The board samples another input than at the start of the run; it is not recorded.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The board says: {value}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The board&apos;s buffer was full; samples were lost. Lower its rate or raise the line&apos;s speed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The board&apos;s clock differs from the computer&apos;s by more than 1 %. Check its clock setting.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The board&apos;s clock differs from the computer&apos;s by {skew} %. Its times are matched to the computer&apos;s; check the board&apos;s clock setting.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The board&apos;s converter did not answer; readings around that are marked. Check its wiring.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The board&apos;s first column counts neither milliseconds nor microseconds. Readings are timed by their arrival.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The cell is dry: the meter shows the whole stack.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The cell is not splitting water at present.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The cell makes hydrogen and oxygen: open vessel, fresh air, no sparks. Never short the batteries; the resistor can be hot; metal salts are toxic. Your local rules decide.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The cell needs more voltage after than before.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The cell never electrolysed; there is nothing to compare.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The charge was not found. {refusal}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The circuit is open.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The circuit is open: the electrodes are out of the solution, or a lead is off.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The computer slept for {awake} s; nothing was measured meanwhile. Switch off sleep while recording.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The computer&apos;s clock was set {way} by {steady} s. The times of the run are not affected.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The connection to {port} ended at {at} ({error}). Everything up to then is kept. Start the program at the other end again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The copy in {parent} is not whole and stays as {name}; the whole run is {saved}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The copy in {parent} stopped: that disk took nothing for too long.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The current density needs [cell] anode_area_cm2 in the bench file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The current was not found. {refusal}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The current would rise by {rise} % as the voltage falls{beyond}. A stack of {wanted_v} V or more holds it within {weak_regulation} %.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The disk cannot keep up: readings are being lost.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The disk takes data again; nothing was lost.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The disk under {parent} reports an error ({error}): from now on nothing is safe there. What was measured since the last good moment is kept in memory; name a second place.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The drift has stayed within the limit.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The drift is within the limit and must stay there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The electrodes or leads touch, or the supply is off. Separate them: the resistor gets warm.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The electrodes were lifted out {later} times; the last time counts as the swap.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The fitted ohmic resistance is negative ({resistance} ohm), which no cell has; the points do not belong to one Tafel line.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The growth is described as {name}, but cannot be told from {names}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The growth was followed for {longest_s} time constants; {lengths_for_settling} are needed to say where it would settle.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The growth was not fitted: {why}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The instrument on {port} takes no bytes since {at} ({error}). Is it switched on, and is its flow control off?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The instrument on {port} was disconnected at {at} ({error}). Everything up to then is kept. Plug it in again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The last {lost_samples} readings are lost: the disk stayed full. {told}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The live file had to be begun anew.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The live view stopped: {error}. Recording goes on.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The measured temperature was not used. {refusal}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter gives about {real} readings a second; {period_s} were asked for.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter on {port} did not answer in time.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter on {port} does not answer.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter on {port} is set to {function}. Set it to DC volts; nothing is recorded until then.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter on {port} stopped sending {silent_s} s ago, although the port is there. Most meters fall asleep after 15 to 30 minutes: switch it on, press its transmit key (often held for two seconds), and switch its automatic power-off off.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter on {port} was asked {query}, but {misfit}. Set it to DC volts, one reading at a time.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter reports: {error}, {error_2}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter says AC and DC at once. If it is on DC volts (V⎓), it orders its signs another way: add column=b to the address. Nothing is recorded until then.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter says that its battery is low. Change it: readings may be off.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter sends a sign whose meaning is not known here. Check on its display that neither HOLD, MAX, MIN nor REL is on.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter sends {strip} where digits should be: probably above its range (OL). Choose a larger range. Nothing is recorded until then.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter shows UL: the voltage is below what it can measure.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter shows no voltage that can be read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter shows overload. Choose a larger range and keep it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter shows {mode}. Turn the dial to DC volts (V⎓). Nothing is recorded until then.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter subtracted a stored value from some readings (REL); absolute voltages are not sure.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter subtracts a stored value (REL or Δ). Press that key again to end it. Nothing is recorded until then.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter&apos;s accuracy is not fully known ({unknown}), so the uncertainty of the voltages is understated. Give it in the bench file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter&apos;s display is held (HOLD, MAX or MIN): its readings are kept but marked. Press that key again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter&apos;s leads are reversed. The recording is kept as read.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter&apos;s leads were reversed (negative readings). Magnitudes are used; the recording stays as read. Swap the leads next time.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The meter&apos;s signs come in an order that was not seen before, or it is on AC volts. Turn the dial to DC volts (V⎓); if it is there already, please report these bytes: </source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The moment &apos;{kind}&apos; is at {tagged_s} s, but the voltage stepped at {nearest} s; move the moment there if they belong together.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The noise does not yet let the drift be told.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The ohmic drop was left out, and there are too few points to tell whether it matters; the slope may be much too large.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The ohmic drop was left out, but the points show one: the slope is too large. Fit it too.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The open cell read {seen_v} V, but the bench file makes it {stated_v} V; check the batteries and supply.stack_voltage_V.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The points lie further from the Tafel line than their uncertainties explain: not one line, or the electrodes changed between the points.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The port does not open in time. Is it a wireless one, or its device off?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The readings before and after go in steps of different size: the meter or its range was changed between them, so its accuracy counts for each of the two voltages. Lock the range next time.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The readings come too rarely: {fewest_samples} are needed in the window.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The readings go in steps of {seen_v} mV, coarser than the {stated_v} mV of the bench file; the coarser step counts. Lock the range that shows more digits.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The recording holds no bench file: supply, meter, electrodes and conditions are not known. Record or import with --bench.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The recording holds no channel with the cell voltage.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The recording holds no readings of the cell voltage.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The recording holds several channels with the cell voltage ({named}); only {named_2} is used. Record one, or give the others another role.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The resistor was changed, but the label of that moment holds no ohms: the current is not known from then on. Give the moment a label such as 4.7k.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The runs differ in {key}: {stated}. They are replicates only if that does not matter.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The salt was tagged before the buffer came in, so there is no voltage before.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The salt went in before the voltage had settled, so what the bare electrodes need is not known well. Next time wait until the program says settled.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The saving could not be stated at equal current. {refusal}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The saving is stated as measured; at equal current it needs the currents.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The savings are compared as measured, since not every run has one at equal current; those need the supply in the bench file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The shunt gives {value_a} mA, the supply circuit {value_a_2} mA. Check stack voltage and resistor; the shunt is used.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The sign of the readings changed during the run. Leads swapped at the meter do no harm, but electrodes swapped at the supply make the comparison meaningless.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The source has nothing more to give.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The speed of {baud} baud may be wrong: add baud= to the address.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The stack measures {measured_v} V, {deviation} % from its batteries as declared; look for one that is empty or turned round.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The stack voltage is not given; the highest reading ({seen_v} V) is taken for the open cell. Give supply.stack_voltage_V in the bench file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The step with {named} is not in the Tafel line: {reason}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The supply holds the current by itself, so changing the resistor gives no Tafel slope.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The two voltages were not compared. {refusal}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The voltage fell by {total_v} mV without having settled first, and no moment says when the salt was added: what the bare electrodes need is not known.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The voltage is too high: a dry cell, a loose clip, or too little solution.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The voltage is too low to split water.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The voltage saved is provisional, since a voltage had not settled.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The voltage saved needs a voltage before and a voltage after.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The voltage still drifts faster than the limit.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The voltage {name} had not settled: its drift lies {high_mv} mV/min, the limit is {limit_mv_per_min}. Wait longer next time.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The window {name} was chosen by hand, not found by the program; say so with the result.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The {stated_rating_w} W of the bench file are not enough here: touching electrodes would put {touching_power_w} W into it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There are no readings of an electrolysing cell yet.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no electrolysis in the phase &apos;{name}&apos;.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no growth phase to fit.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>These are reminders, not a risk assessment. Local codes, the rules of your school or laboratory, and qualified people decide.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Too high for splitting water: the cell is dry, a clip is loose, or solution is missing.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Waiting for the first reading.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What arrives from {port} is no text. {speed_hint}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>You may not use {port} yet. Run: sudo usermod -aG dialout $USER (on Arch: uucp), then log out and in.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a .parquet file needs pyarrow; install it with: python3 -m pip install pyarrow</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a .{kind} file needs the window part of the program, which is not installed completely here ({error}); start python3 run.py once, which installs it, or export to .svg, .html or .csv</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a Tafel line needs a current above zero</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a battery has 0.8 to 15 V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a block of {n} samples does not fit its frame of {payload} bytes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a board that prints lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a board that sends numbered, checked packets of samples (COBS)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a cell at {before_v} V before and {after_v} V after the catalyst</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a cell of this kind takes 0.0001 to 500 mA/cm2</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a cell of this kind takes no more; check the current and the area</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a charge needs two points in time</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a comparison of both ways needs more than {parameters}, some up and some down</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a continuity test</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a date or time</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a digit of the display has a shape that no digit has</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a diode test</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a duty cycle</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a fresh AA cell</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a fresh alkaline nine-volt block</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a gain is the change shown over the true change, 0.5 to 2</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a handheld meter of 22000 counts that sends digits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a handheld meter of 4000 counts that sends digits (column=b: other order of signs)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a handheld meter that sends digits and signs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a handheld meter that sends its segments</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a handheld meter that sends one or two displays (column=2: the second)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a headspace has 0 mL to 100 L</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a line of more than {line_limit} bytes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a meter of {input_ohm} Mohm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a meter shows 0 V within 0.5 V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a meter that answers queries (IEEE 488.2 / SCPI)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a moment&apos;s time must be zero or more seconds since the start, not {time_s}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a pH lies between -1 and 15</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a parameter is not determined by the data</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a part of it has another form than in a recording</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a point that is no number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a recording played again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a resistor tolerance of {tolerance_percent} %</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a run needs at least one source: add --source ADDRESS</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a second copy can be begun only while a run goes on</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a stack has 1 to 60 cells</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a stack must split water and stay within extra-low voltage (above 60 V local rules decide)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a stack of three nine-volt blocks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a stack of {min} V cannot split water (needs over {reversible_v} V)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a stack of {stack_v} V as declared, within {declared_stack_limit} %</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a stack that drives a cell has 0 to 1000 ohm inside</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a stack voltage measured within {unknown_meter_limit} %</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a text in it is not UTF-8</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a tolerance is a share of the value</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a transistor&apos;s gain</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a value in it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a very large number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a vessel holds 1 mL to 20 L</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>accepted is {low} to {high}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>accuracy in counts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>accuracy in percent of reading</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>activity of water</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>all of it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>all sources of a run must have the same speed; give each the same speed=</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>all values of each group are equal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>allowance of the chart</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>amount of gas in mol</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an activity above 1 would need supersaturation</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an air pressure of {assumed_pressure_kpa} kPa</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an air pressure of {pressure_kpa} kPa</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an electrolysing cell has a voltage above zero</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an entry of the shelf cannot be {state}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an entry of the shelf has no usable {key}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an entry of the shelf has other fields</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an entry {name} cannot be read</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an entry {name} holds {value} as {name_2}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an entry {name} is no JSON object</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an instrument without points</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an internal resistance of 0 to {ohm} Ω</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an ohmic resistance of 0 to {ohm} Ω</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an ohmic resistance of {ohm} Ω from spacing and area</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an open cell cannot be told from a poor contact</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an open cell has 30 to 200 kPa</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an unfinished run of that name lies beside it; first: galvanote recover &apos;{target}&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an unknown resistor</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>and cell_voltage_V make a stack of {declared_v} V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>anode area in cm2</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>anode areas</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>another file has that name now</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>another process begins a journal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>another run of that name has just begun: {out}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>area in cm2</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>arrival, less the time on the line and half a conversion</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>as the label of its moment</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>at most {most_unusable_share} % may be left out; lock the range, check the leads</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>at {temperature_c} degC the vapour of water alone has {vapour_pa} Pa, so the cell boils</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>bands of the resistor</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>bar or atmosphere</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>bench file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>beta lies outside {smallest_beta} to {largest_beta}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>between {ends} and {ends_2}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>blank runs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>board-clock, lower envelope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>board-clock, provisional</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>buffer without salt</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cancelled; nothing was written</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cannot replay {path}: it is an HDF5 file, but no recording (it has no /run/start_time); give a file that galvanote recorded or imported</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cannot replay {path}: it is no whole recording ({error}); see galvanote check {path}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cannot replay {path}: it is not an HDF5 file, or not a whole one; a run that was cut off is finished with galvanote recover</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cannot replay {path}: it may not be read; check its permissions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cannot replay {path}: the recording has no channel</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cannot replay {path}: there is no such file; check the name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>capacity in mAh</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cell voltage after in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cell voltage before in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cell voltage in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cells in the stack</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>change of the current between the plateaus in percent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>change the resistor between the points</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>charge in C</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check both units: milligram and millilitre</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check both units; up to {greatest_density_ma_cm2} mA/cm2 is expected</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check the clock</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check the stack voltage and the range of the meter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check whether the two readings are swapped, or let the stack rest and read again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>chosen window in s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>colour of a band</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>compare plateaus within {greatest_current_change} %, with the same resistor and stack</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>compare plateaus within {greatest_temperature_difference_k} K</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>conductivity in S/m</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>contradicts resistor_ohm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>covariance matrix</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>coverage probability</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>current after in A</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>current before in A</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>current correction</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>current density in mA/cm2</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>current in A</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>currents of the Tafel line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>degrees of freedom</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>degrees of freedom of {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>density of water in kg/m3</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>did you mean {near}?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>digit band</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>digit bands</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>dry, {temperature_c} degC, {pressure_kpa} kPa</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>each current needs its voltage</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>electrode spacing in mm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>electrodes in fresh buffer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>electrodes lifted out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>electrodes of 0.005 to 100 cm2 are expected</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>electrodes stand 0.1 to 500 mm apart</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>fall of the voltage in mV</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>fault {value}: the value must be 0 or more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>frequency in Hz</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>fresh buffer without salt</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>from stack voltage, cell voltage and resistor</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>from the voltage across the shunt</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give --current, --current-density, or [supply] resistor_ohm in a bench file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give 0.01 ohm to 100 Gohm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give [cell] anode_area_cm2 in a bench file, or --current instead</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give a begin and a later end</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give a number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give a number above zero</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give a number above zero, or infinity</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give a number {wanted}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give a positive semidefinite one</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give a pressure above {vapour_pa} Pa or a lower temperature</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give a vector of {fewest_samples} or more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give at least two samples</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give both, or neither</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give each sample a later time</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give equal lengths</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give for example 0.95</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give magnitudes where the leads are reversed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give more points, further apart</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give numbers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give one count of the last digit in volt, for example 0.001</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give one of {known}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give one row and one column for each input</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give points that lie nearer to the model, or smaller uncertainties</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give the time of every sample</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give the times of a monotonic clock, oldest first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give the values as measured</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give three or more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give two runs at least, better three</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give two vectors of one length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give vectors of one length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give {fewest} or more, without overload</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give {least_splitting_v} to {extra_low_voltage_v} V (above, local rules decide)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give {low} to {high}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give {low} to {high} {unit}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>greatest current in A</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>grey means 0.05 % in one edition of the standard and 0.01 % in another</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>grow for {lasts_s} s or longer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>half-width of the limits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>has no kind</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>headspace in mL</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>held by the supply, as stated</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>how digits are sent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>if so, give {zero_celsius_k} degC; accepted is 0 to 100</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>in channel {name} {fault}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>in the bench file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>input resistance in ohm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>internal resistance in ohm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is no number; write for example 1.5 or 1,5</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is no number; write for example 1.5 or 1,5, without a unit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is not known in a {where}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is not one</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is one step too many</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is too large</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it belongs in [{home}]</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it cannot drive {current_a} A through a cell at {cell_voltage_v} V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it changes within one phase</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it claims more than the memory holds</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it does not rise</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it gives a negative variance</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it has no colour</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it holds more than {object_limit} objects</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is a pipe or a device, no ordinary file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is a probability between 0 and 1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is a share of the reading</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is above the open reading of {open_v} V, which would be a negative resistance</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is an HDF5 file, but no recording of this program</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is empty</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is less than {least_fall_deviations} times the noise</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is no HDF5 file, as every recording is</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is no stretch of the run</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is no water</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is not a finite number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is not finite</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is not known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is not known here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is outside extra-low voltage, where local rules decide who may work with it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is the same run as {uuid}, which would pass for a replicate</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it looks like kelvin</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it looks like {units}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it may not be read; check its permissions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it must be {wanted}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it must lie between 0 and 1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it says automatic and manual range at once; without column=b it may be right</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it shows no voltage saved</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it shows no voltage saved ({said})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it was cut off: of {found} bytes {found_2} are there</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its anode has {anode_area_cm2} cm2, those of the others {usual_cm2} cm2</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its current of {current_before_a} mA is more than {greatest_current_change} % off the {usual_a} mA of the others</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its inner structure is damaged</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its polarity is reversed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its process ended with status {returncode}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its range is none of the volt ranges</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its unit is neither V nor mV</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its voltage had not settled</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its voltage {name} had not settled</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>keep current_A only for a supply that holds the current by itself</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>keep to {most_steps} steps</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>known are {colours}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>known are {kinds}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>known are {known}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>leave it out, or find why it is missing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>leave out missing readings first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>leave out the run, or analyse it again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>leave the leads where they are from before to after</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>leave them out first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>length of the growth in s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>less than 20 kohm would load the cell</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>let the catalyst grow longer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>limit for stray readings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>limit of the chart</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>liquid water has no vapour pressure there</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>load current in A</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>loaded reading in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>look for air that leaked in, a wrong temperature or pressure, or a gap in the charge</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>look up the tolerance in the resistor&apos;s data sheet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>looks like {looks_like}; {reason}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>measure the resistor instead</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>metal salt</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>meter after</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>meter before</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>meter gain</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>meter gain on the difference</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>meters are good for 0 to 10 % of the reading</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>meters are good for 0 to 1000 counts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>millimetres of mercury</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>models tried</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>more gas was found than the charge can have made</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>more points, or another model</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>more than zero</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>multiplier band</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>must be a list of tables</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>must be a number, not {kind_of}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>must be a table</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>must be a text, not {kind_of}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>must be a whole number; write for example {number}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>name each run once</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>name two or more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no calibration is kept for {identity}; see galvanote calibrate show</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no channel can be called {name}: a recording needs it; choose another channel=</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no column {name} can be emulated{hint} (known: {known})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no data arrived</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no effect shown ({amount})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no more hydrogen can form than the charge allows</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no multiplier band goes so far</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no open cell has that pressure, so the unit is in doubt (hPa, kPa, mmHg and bar must be converted)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no port is chosen; pick the one that the meter is plugged into</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no reading for {longest_gap_s} s of {length_s} s; at most a tenth of the window may be missing at a time</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no reading has come in the last seconds; connect the meter and let it send</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no recording can be begun in {folder} ({strerror}); choose another folder</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no room for what has been recorded so far</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no salt was tagged and no lasting fall was seen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no salt was tagged, but the voltage fell as it does after salt</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no scatter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no second copy can be begun in {folder} ({strerror})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no start led to an answer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no time constant is reported</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no tube is that long</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no volts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing says how large it shall be</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing says how many ohms it had (label the moment with them)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing tells this instrument from another one of its kind; give it a name (More settings), then the calibration can be kept for it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>ohmic resistance in ohm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>one count is 1 nV to 0.1 V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>one of them</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>one reading in a thousand is missing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>one reading lies</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>only times would be printed; add a quantity, for example cell_voltage</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>open reading in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>open-circuit voltage</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>open-circuit voltage in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>overload and missing readings are no voltages</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>partial pressure of hydrogen in Pa</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>partial pressure of oxygen in Pa</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>points of the Tafel line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>points of the fit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>power rating of the resistor in W</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>pressure in Pa</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>put it in &quot;quotes&quot;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>raise the current step by step and lower it again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>ranges reach from 0.01 to 1000 V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read the bands again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read them again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>reading it breaks the HDF5 library</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>reading it never ends</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>readings at the end of the phase</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>readings in the phase</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>readings in the window</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>readings of the growth</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>readings outside electrolysis in percent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>readings with impossible times were left out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>record faster</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>record longer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>record without gaps</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>record without gaps, faster or longer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>record {fewest_samples} or more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>relative uncertainty</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>relative uncertainty of an uncertainty</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>relative uncertainty of the current ratio</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>replay of {port}, recorded {start_time}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>replicate runs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>resistor in ohm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>resistors are rated 0.01 to 100 W</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>resolution after</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>resolution before</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>resolution in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>returned no data</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>reversible voltage</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>round it to three digits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>row 0 minimum, row 1 maximum of each bucket of samples, overload left out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>runs and blank runs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>runs to compare</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>sag of the stack in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>salt was tagged</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>samples in a second</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>samples in the window</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>samples of {channel}: times {shape}, values {shape_2}, quality {shape_3} must be vectors of one length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>samples with a current</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>samples {begin} to {end} cannot be read ({error})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>samples {begin} to {end} hold a time that goes back or something that is no number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>samples_kept must be at least 256 and at most 64 times buckets_kept</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>saturated with water vapour</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>scatter after</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>scatter before</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>scatter cannot be seen from it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>sensitivity to {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>series of resistors</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>series resistor in ohm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>settle at {fewest_currents} or more currents over a decade or more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>settle before or after</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>settled voltages</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>settling limit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>settling window in s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>shapes of the samples</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>shapes {shape} and {shape_2}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>shunt resistance in ohm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>shunt voltage in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>sign of the readings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>simulated cell (invented data)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>simulated, sample n at n / rate</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>so few do not tell models apart</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>so few say nothing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>so few say nothing about the noise between them</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>so few tell nothing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>so large a difference changes the voltage as much as a catalyst may</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>some readings are held, overloaded or damaged; end HOLD or REL at the meter, see that its range holds the voltage, and begin again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>some times are not numbers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>something other than DC volts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>square metre</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>square millimetre</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stack voltage in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>standard uncertainty of a current in A</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>standard uncertainty of a reading in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>standard uncertainty of a voltage in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>standard uncertainty of the Tafel slope</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>standard uncertainty of the cell voltage in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>standard uncertainty of the current in A</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>standard uncertainty of the ohmic resistance</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>standard uncertainty of the shunt in ohm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>standard uncertainty of the shunt voltage in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>standard uncertainty of the {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>standard uncertainty of {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stirrers turn 0 to 3000 times a minute</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stretched exponential</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>supply on, cell dry</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>swap the leads and read it again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>swapped leads</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>take a resistor of at least {rating_w} ohm, or one rated {touching_power_w} W or more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>take more cells in the stack, or a smaller current</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>temperature after minus before in K</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>temperature coefficient</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>temperature difference</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>temperature in degC</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>that colour is no digit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>that colour is no multiplier</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>that colour is no tolerance</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the answer is empty</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the answer {value} is not a number in volts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the answer {value} is not one number (two values, or a decimal comma)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the area of the anode is not known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the arrays of channel {name} differ in length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the board dropped {samples} samples</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the board restarted</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the board says that it has no value</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the board&apos;s own clock, unwrapped; -1 where unknown</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the built-in simulated cell: cell:demo, cell:blank or cell:bench</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the calibration cannot be kept in {path} ({error}); check space and permissions there</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the cell at {assumed_temperature_c} °C</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the cell at {temperature_c} °C</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the cell holds liquid water</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the channel {name} is declared twice</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the check of the line {raw} is wrong or missing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the column is in {unit}, not in V or mV. Choose another column.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the column {name} is named twice; name each once</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the columns of the moments differ in length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the curve has another shape, for example a delay and then a ramp</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the display has two points, or a blank among its digits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the duration</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the editing process ended with status {returncode}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the electrodes go only a quarter deep into the fresh buffer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the electrodes touch for 20 s during growth</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the first disk has lost them, and memory had no room for them.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the fit with uncertain abscissas did not converge</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the folder {folder} cannot be made ({strerror}); name a file with --out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the folder {folder} cannot be read ({error}); choose another one</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the folder {parent} is not there; make it first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the folder {parent} is not there; make it, or choose another</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the journal is not as a recorder writes it: in {name} {fault}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the journal is not as a recorder writes it: its times are beyond all bounds</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the known voltage must be a number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the known voltage {error}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the label of resistor_changed must hold the ohms, for example 4.7k, not {label}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the label of temperature must hold degrees Celsius from 0 to 100, for example 22.5, not {label}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the last ones are all alike</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the line {raw} has other columns than those before</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the line {value} holds no reading</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the line {value} may hold one number with a decimal comma, or two columns. If they are columns, add column=2 (or 1) to the address; if it is a decimal comma, let the board print a point.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the lines are in {units}, not in V or mV. Set the board to volts.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the lines have no column {column} (they have {known}). Change column= in the address.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the matrix</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the meter answers that it has no number (9.91E37)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the meter jumped between a voltage and something else</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the meter shows hundredths of a volt</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the meter shows whole millivolts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the meter shows {mean_v} V; that is not the zero. Hold its two leads together, off the cell</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the meter would show {gain} V for each true volt; no sound meter is that far off. Was the known voltage really on its leads? A divider is undone by scale= in the address</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the meter would show {zero_v} V at 0 V; no sound meter is that far off. Hold its two leads together and take the zero again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the meter&apos;s leads are swapped: every reading has the other sign</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the method holds the current by a large resistor, 100 ohm to 10 Mohm (give current_A instead for a supply that holds the current itself)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the method uses 0.1 microampere to 1 ampere</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the name is taken</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the noise is one-sided (large bubbles?)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the noise lasts up to {lasts_s} s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the numbers are whole: counts of a converter, not volts. Add scale= (volts per count) to the address, for example scale=0.0048828125.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the ohms of the changed resistor</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the order of the bits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the output</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the readings wander by {values} V; hold the leads firmly on a steady voltage</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the recorder could not keep up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the recording is large; copying it would take long</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the recording or its folder may not be written</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the run has ended</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the run has ended; change the moment in its recording</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the run is not finished</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the run was never started; there is nothing to save</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the salt comes 30 s after the buffer, before the voltage has settled</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the second copy must be in another folder than {parent}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the signs for AC and DC</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the simulated cell found no operating point</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the simulated cell has no fault {name}{hint} (known: {faults})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the simulated cell has no lesson {name}{hint} (known: {lessons})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the simulated cell has no noise {name}{hint} (known: {noises})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the simulated cell holds liquid water of 0 to 100 degC, not {temperature_c}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the size of the noise is not known</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the source is gone for 20 s during growth</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the source sends nothing for 20 s during growth</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the speed of {baud} baud may be wrong (add baud= to the address), or </source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the stack has only {stack_voltage_v} V, so no current flows</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the supply is off for 60 s during growth</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the time goes back at sample {number}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the time of an anchor</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the time of sample {number} cannot be read ({error})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the times go backwards</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the times go beyond all bounds</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the two voltages do not belong to the same current</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the widest series has 20 % (IEC 60063)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the window is too short or drifting: its readings are worth only {effective_samples} independent ones, and {fewest_effective} are needed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there are three to six bands</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there are {shape} sensitivities</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there is a journal of that name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there is no fault {name}{hint} (known: {value})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there is no kind of moment {kind}{hint} (known: {kinds})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there is no moment with the id {moment_id}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there is no size of picture {size}; known: {sizes}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there is nothing to compare</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there must be more than zero</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there must be one for each sample</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>they do not determine {shape} parameters</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>they do not differ</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>they hold fewer than two times</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>they must be alike</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>they read zero</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>this bench</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>those of the currents were given</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>three digits cannot state it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>time must not run backwards</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>time since start (s)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>time, value and quality of channel {name} differ in length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>times in s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>times of the readings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>times of the replayed recording</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>times of the window</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>times {shape}, current {shape_2}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>tolerance band</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>tolerance in percent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>too few for the settling window</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>too few, or one is not a finite number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>touching electrodes would put {touching_power_w} W into it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>true or false</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>turn the resistor round and read again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>turns in a minute</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>two channels are called {name}; give one of the sources another channel=, and its role=</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>two exponentials</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>two values only differ</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>uncertainties of the voltages</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>until settled</source>
        <translation type="unfinished">bis eingeschwungen</translation>
    </message>
    <message>
        <source>use a stack of more than {open_enter_share} V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>values for an outlier test</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>values of the chart</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>values of the window</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>volt per minute</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>voltage after in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>voltage before in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>voltage in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>voltage of no overpotential in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>voltage of one cell in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>voltage saved in V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>volume of gas in mL</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>water boils at {temperature_c} degC and {pressure_pa} Pa</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>water column in mm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>whatever sends by itself, recognised by listening only</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write [[steps]] before each step</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write [{section}] on a line of its own, its keys below</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write for example &quot;90s&quot;, &quot;15m&quot; or &quot;{until_settled}&quot;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write for example kind = &quot;salt_added&quot;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write for example {whole}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write it without quotes or unit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write it without signs between thousands, for example 1234.5 or 1234,5</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>zero or more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address} asks for {wanted}, but the board samples input {there}. Change the address (column= and its lists), or the board&apos;s program.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address} is back{where}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address} is not open. Open it first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: a board has at most {inputs} inputs; {entries} are listed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: a key lists {entries} entries, but column names {columns}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: a key lists {entries} entries, but column names {inputs} inputs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: a {kind} meter has no column {column}; write {known}, or leave it out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: internal fault in the driver: {error}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: role, scale and offset belong to one channel, and the recording has several; add channel= and one of {names}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: scale=0 would make every reading 0; leave it out or write a factor</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: the file has changed its channels since the run began</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: the recording has no channel {wanted} (it has {names})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: the recording is damaged: {error}; see galvanote check {port}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: the recording is damaged: {error}; see galvanote check {port}. Opened again, it goes on behind the damage when the run has got there</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: the recording is not open; open it (again) to read</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: the recording is over</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: the simulated cable is still out; wait until {end_s} s of the run (now {now_s} s)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: the simulated cable was pulled at {begin_s} s of the run; open the source again after {end_s} s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: the simulated cell is not open; open it (again) to read</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: the simulated lesson is over</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: there is no kind of source {kind}{hint} (known: {kinds})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: there is no role {role}{hint} (known: {roles})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{address}: two inputs are called {name}; give each a name of its own, for example channel=cell,shunt</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{amount} more needed than before</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{begun}: a run is just being started</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{begun}: removed; that run was cut off before it began to record.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{cell} is whole, where the numbers before had decimals</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} bytes arrived, but too few of them make sense. Is its speed an unusual one? Name kind and speed in the address, for example text:PORT?baud=57600</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} readings lie</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} counts as a blank: {kind_reason}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} counts as a run with salt: {kind_reason}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} is not in the statistics: {reason}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} lies off the others (Grubbs&apos; test: {statistic}, by chance above {critical} in {percent} % of such sets). Look for a cause; it stays in the statistics.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{first} after {first_2} (sample {first_3})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{found}{no_break}times, {length} together</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{journal} holds no reading that was ever acknowledged; it is left where it is.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{journal} holds no run: its head is missing or damaged</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{journal} holds readings of a channel that it does not describe</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{journal} is a folder, a pipe or a device, no journal; it is left as it is</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{journal} is still being recorded, or being recovered; end that first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{key} may not hold the sign &amp;; leave it out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{kind} at adapter {adapter_serial}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{live}: the live file is thrown away at the end; name another than the recording</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{lost} readings could not be written: the disk stayed full.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{missing} is missing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{missing} readings could not be copied: {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{moment_id} {seen} of the moments; galvanote moment &apos;{path}&apos; list shows their ids</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} came out negative</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} claims {size} values in a file of {file_bytes} bytes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} could not be written ({error}); check free space and permissions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} could not be written ({told}). What was recorded is safe in {journal}; later: galvanote recover &apos;{journal}&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} could not be written yet ({reason}). What was recorded is safe in {journal}. Make room or check the folder, then: galvanote recover &apos;{journal}&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} could not be written: its journal is no longer there. If {journal} or its folder was moved or renamed, look for it there, and: galvanote recover FOLDER. If it was removed, what it held is lost</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} did not end in time</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} has a unit that cannot be one</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} has an attribute with a name that no recording has</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} has chunks that are too large</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} holds a name that no recording has</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} holds neither numbers nor texts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} holds nothing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} is far longer than the data</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} is no column of samples</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} is no voltage; only voltages are calibrated here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} is not determined: {value} with a standard uncertainty of {deviation}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} is there under two names</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} keeps its data in another file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} needs a plug-in to be read</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}, line 1: brackets are nested too deeply; write plain tables</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}, line {error}: not TOML, {reason}; write key = value, texts in &quot;quotes&quot;, tables as [supply]</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}, line {line}: a number has thousands of digits; write a shorter one</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}/{name_2} is a link to another place</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}/{name_2} is missing or is not a column of numbers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}: this system does not take &lt; &gt; : &quot; | ? * in names</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}: too long for a bench file; keep it below {largest_text} characters</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}@{name_2} is no text</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}@{name_2} is too large</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{negative} of {number} negative</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{numerator_v} V (higher heating value) over the cell voltage</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{out} could not be begun: other exports into its folder are in the way; try again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{out} is a folder; name a file in it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{out} was not written: {why_not}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{out}: a decimal comma is only for .csv; a spreadsheet shows .xlsx as its own settings say</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{out}: a size is only for pictures ({pictures}); leave --size away</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{out}: no export has the ending {suffix}; known: {endings}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{packets} packets from {port} were lost; by the board&apos;s clock {samples} samples of each channel are missing. They stay a gap. If this goes on, lower the board&apos;s rate or raise the line&apos;s speed.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{packets} packets of the board were lost ({samples} samples)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{parameters} parameters need more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{parent} takes no more data ({error}). The readings are kept in memory and written as soon as there is room: free some space now.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} cannot be read ({error}); check its permissions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} cannot be read ({strerror}); check the name and permissions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} could not be changed ({error}); it is as it was</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} could not be looked at: the look was ended from outside ({name}), or memory was short; try again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} exists; a live file is thrown away at the end, so name one that is not there</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} exists; choose another name, or add --replace</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} has just been replaced; try again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} holds no channel; there is nothing to write</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} holds no run: its first entry is missing or damaged, nothing can be read</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} holds readings of a channel that it does not describe</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is a folder; name a file in it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is a folder; name a recording in it (a file ending in .h5)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is an HDF5 file but not a recording of this program: it has no /run/start_time</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is being edited by another process; try again later</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is being written by another process; stop that recording first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is no list of calibrations ({error}); move it away, and calibrate again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is no longer there (removed, renamed, or its disk taken away) and could not be written anew ({error}): from now on nothing is safe there. Everything recorded so far is still within reach while this run goes on: name a second place now.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is not a journal, none lies beside it, and it is no whole recording: nothing can be recovered from it; name a journal (ending in {suffix}) or a folder</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is not a recording, or a damaged one: it cannot be opened as HDF5; if a file of that name ending in .journal lies beside it, recover that</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is not a recording, or not a whole one: {reason}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is not a whole journal: {error}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is not a whole recording: {error}; use another copy of it if there is one</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is not as a recorder writes it: in {name} {fault}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is not there; check the name and the folder</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is not there; name a journal (ending in {suffix}) or a folder</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} is still being recorded; type the moment into the recorder, or end the run first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} may not be read; check its permissions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} was cut off; first: galvanote recover &apos;{path}.journal&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path} was removed, renamed or replaced while it was being written. It has been written anew, with everything recorded so far; leave it alone until the run has ended.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path}, line {line}: a character is not UTF-8; save the file as UTF-8 text</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path}: a recording&apos;s name ends in .h5; write --out {name}.h5</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path}: cannot be read ({strerror}); check its permissions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path}: that is a folder; name the bench file in it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{path}: there is no such bench file; check the name and the folder</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{payload} bytes are too few for a block of samples</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} could not be opened: {seen}. Check the address; it reads socket://HOST:PORT.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} could not be opened: {seen}. Check the cable, or choose another port.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} does not answer. Is that computer on, and on the same network?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} does not take {baud} baud ({seen}). Choose the speed that the instrument&apos;s manual names.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} exists, but no device is behind it. Plug in the cable or choose another port.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} is in use by another program. Close it: a serial monitor, or a second copy of this one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} is not a serial port. Choose another port.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} is not open. Open it first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} is not there. Plug in the cable or choose another port.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} sends without being asked, so it is not a meter that answers queries. Use the kind of source that listens, for example text:{port}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} stopped at {at}: it is still there but gives no data ({error}). Either the instrument was disconnected, or another program is reading the port at the same time: close it (serial monitors, modem manager).</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port}: that host is not known here. Check its name, or write its number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port}: the number of the port is missing or impossible. It reads socket://HOST:PORT.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port}: this kind of link is not known. Use a device, socket://HOST:PORT or rfc2217://HOST:PORT</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{quantity}: {shown} is refused, {reason}; {accepted}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{readings} far off the others, the furthest by {furthest} mV (a lead or an electrode that was touched?); they count all the same, without them the mean would be {mean_without} V</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{recording} could not be changed ({error}); it is as it was. Check free space and permissions.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{said}; its journal is there: galvanote recover &apos;{journal}&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{said}; name another file, or use a copy of it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{share} % of the current would flow through the meter beside the cell; take one of higher input resistance.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{size} readings are too few to go by; let the meter send for longer (--for 20s)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{size} readings were marked as held, repeated or suspect; they are kept but not used.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{target} exists; choose another name, or add --replace to replace it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{target} is being recorded by another process; choose another name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{time_s} s is after the end of the run ({duration_s} s); give a time within it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{times} and {most} more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{true_v} V shown as {shown_v} V ({readings} readings, {day}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{typed} is no display; write for example 2.251 or 2251 mV</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{unit} (then write {number})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{unit} (then write {value})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{values_v} with salt cannot tell how well the experiment repeats; make {fewest_replicates} or more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{value} ({repeats} more like this before)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{value} That was the {misses_to_give_up}th time in a row. Is the meter on, and still set to DC volts?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{value} is no time to wait; write for example 90s, 15m or &quot;{until_settled}&quot;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{value} is not a duration; write for example 90, 90s, 15m or 2h</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{value} is not a run time; write for example 12:30 (minutes:seconds) or 750</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{value} is not a source address: write KIND:PORT, for example cell:demo or scpi:/dev/ttyUSB0</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{value} names no port: write {kind}:PORT, for example {kind}:/dev/ttyUSB0</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{value}: a {kind} source has no key {key}{hint} (known: {known})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{value}: the key {key} is given twice</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{wanted} and 10 000 names like it are taken; move some files away</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{what} is at {time_s} s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{who} does not answer {query}. Is the meter on, is its remote interface set to {baud} baud 8N1, and is the cable the right one (crossed or straight)?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{words}, provisional: a plateau was not settled</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{words}, {temperature_c} degC, {pressure_pa} kPa, all charge splits water</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>Moment entry</name>
    <message>
        <source>Time of the moment, minutes:seconds</source>
        <translation>Zeit des Moments, Minuten:Sekunden</translation>
    </message>
    <message>
        <source>What happened</source>
        <translation>Was geschah</translation>
    </message>
    <message>
        <source>What happened?  Enter keeps, Esc skips</source>
        <translation>Was geschah?  Eingabe behält, Esc überspringt</translation>
    </message>
    <message>
        <source>Kind of moment</source>
        <translation>Art des Moments</translation>
    </message>
    <message>
        <source>Keep</source>
        <translation>Behalten</translation>
    </message>
    <message>
        <source>Keep (Enter)</source>
        <translation>Behalten (Eingabe)</translation>
    </message>
</context>
<context>
    <name>Moment list</name>
    <message>
        <source>Edit</source>
        <translation>Bearbeiten</translation>
    </message>
    <message>
        <source>Edit the chosen moment (Enter)</source>
        <translation>Gewählten Moment bearbeiten (Eingabe)</translation>
    </message>
    <message>
        <source>Remove</source>
        <translation>Entfernen</translation>
    </message>
    <message>
        <source>Remove the chosen moment (Delete)</source>
        <translation>Gewählten Moment entfernen (Entf)</translation>
    </message>
    <message>
        <source>Moments</source>
        <translation>Momente</translation>
    </message>
    <message>
        <source>Moments of the run</source>
        <translation>Momente der Messung</translation>
    </message>
    <message>
        <source>No moments were tagged.</source>
        <translation>Es wurden keine Momente festgehalten.</translation>
    </message>
    <message>
        <source>Press M when something happens: the time is kept at once, words can follow.</source>
        <translation>Wenn etwas geschieht, M drücken: die Zeit steht sofort fest, Worte können folgen.</translation>
    </message>
</context>
<context>
    <name>Notices</name>
    <message>
        <source>The disk is nearly full: {room}. Make room, or stop and save.</source>
        <translation>Die Platte ist fast voll: {room}. Platz schaffen, oder beenden und speichern.</translation>
    </message>
    <message>
        <source>room for about {time} more</source>
        <translation>Platz für noch etwa {time}</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>Danger</source>
        <translation>Gefahr</translation>
    </message>
    <message>
        <source>Warning</source>
        <translation>Warnung</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Hinweis</translation>
    </message>
</context>
<context>
    <name>Pages</name>
    <message>
        <source>Run</source>
        <translation>Messung</translation>
    </message>
    <message>
        <source>Bench</source>
        <translation>Aufbau</translation>
    </message>
    <message>
        <source>Findings</source>
        <translation>Ergebnisse</translation>
    </message>
    <message>
        <source>Shelf</source>
        <translation>Sammlung</translation>
    </message>
    <message>
        <source>Help</source>
        <translation>Hilfe</translation>
    </message>
</context>
<context>
    <name>Run foot</name>
    <message>
        <source>Tag a moment</source>
        <translation>Moment festhalten</translation>
    </message>
    <message>
        <source>Kind</source>
        <translation>Art</translation>
    </message>
    <message>
        <source>Tag a moment of a kind</source>
        <translation>Moment einer Art festhalten</translation>
    </message>
    <message>
        <source>Tag a moment of a kind (K); its time is when this menu opens</source>
        <translation>Moment einer Art festhalten (K); es gilt die Zeit, zu der sich dieses Menü öffnet</translation>
    </message>
    <message>
        <source>Stop and save</source>
        <translation>Beenden und speichern</translation>
    </message>
    <message>
        <source>Skip</source>
        <translation>Überspringen</translation>
    </message>
    <message>
        <source>Skip the next step (Ctrl+K)</source>
        <translation>Nächsten Schritt überspringen (Strg+K)</translation>
    </message>
    <message>
        <source>Repeat</source>
        <translation>Wiederholen</translation>
    </message>
    <message>
        <source>Do the last step once more (Ctrl+R)</source>
        <translation>Letzten Schritt noch einmal (Strg+R)</translation>
    </message>
    <message>
        <source>Steps …</source>
        <translation>Schritte …</translation>
    </message>
    <message>
        <source>Change the steps to come (Ctrl+T)</source>
        <translation>Die kommenden Schritte ändern (Strg+T)</translation>
    </message>
    <message>
        <source>Tag</source>
        <translation>Moment</translation>
    </message>
    <message>
        <source>Stop</source>
        <translation>Beenden</translation>
    </message>
    <message>
        <source>Saving …</source>
        <translation>Wird gespeichert …</translation>
    </message>
    <message>
        <source>Not recording</source>
        <translation>Keine Aufzeichnung</translation>
    </message>
</context>
<context>
    <name>Run page</name>
    <message>
        <source>Following the whole run</source>
        <translation>Folgt der ganzen Messung</translation>
    </message>
    <message>
        <source>Follow the newest readings, or stand still (F)</source>
        <translation>Den neuesten Messwerten folgen oder stehen bleiben (F)</translation>
    </message>
    <message>
        <source>Opening the source of the readings …</source>
        <translation>Die Quelle der Messwerte wird geöffnet …</translation>
    </message>
    <message>
        <source>Wheel zooms  ·  drag looks back  ·  drag a flag to move its moment</source>
        <translation>Rad zoomt  ·  Ziehen blickt zurück  ·  Fahne ziehen verschiebt ihren Moment</translation>
    </message>
    <message>
        <source>The run is not recording.</source>
        <translation>Es wird nicht aufgezeichnet.</translation>
    </message>
    <message>
        <source>{sentence} {count} moments.</source>
        <translation>{sentence} {count} Momente.</translation>
    </message>
    <message>
        <source>Waiting for the first readings …</source>
        <translation>Wartet auf die ersten Messwerte …</translation>
    </message>
    <message>
        <source>Following</source>
        <translation>Folgt</translation>
    </message>
    <message>
        <source>Standing still: follow again</source>
        <translation>Steht still: wieder folgen</translation>
    </message>
</context>
<context>
    <name>Run sheet</name>
    <message>
        <source>All steps are done</source>
        <translation>Alle Schritte sind getan</translation>
    </message>
    <message>
        <source>Plan the steps of this run</source>
        <translation>Die Schritte dieser Messung planen</translation>
    </message>
    <message>
        <source>the space bar then does one after the other</source>
        <translation>die Leertaste tut dann einen nach dem anderen</translation>
    </message>
    <message>
        <source>stop and save when you like</source>
        <translation>beenden und speichern, wann es passt</translation>
    </message>
    <message>
        <source>when you like</source>
        <translation>wann es passt</translation>
    </message>
    <message>
        <source>the time is up: go on</source>
        <translation>die Zeit ist um: weiter</translation>
    </message>
    <message>
        <source>in {time}</source>
        <translation>in {time}</translation>
    </message>
    <message>
        <source>the voltage has settled: go on</source>
        <translation>die Spannung ist eingeschwungen: weiter</translation>
    </message>
    <message>
        <source>wait until the voltage has settled</source>
        <translation>warten, bis die Spannung eingeschwungen ist</translation>
    </message>
    <message>
        <source>wait until settled, about {time} more</source>
        <translation>bis eingeschwungen warten, noch etwa {time}</translation>
    </message>
    <message>
        <source>The voltage has settled: the run can end.</source>
        <translation>Die Spannung ist eingeschwungen: die Messung kann enden.</translation>
    </message>
    <message>
        <source>The time is up: the run can end.</source>
        <translation>Die Zeit ist um: die Messung kann enden.</translation>
    </message>
    <message>
        <source>The voltage has settled. Next: {step} (space bar)</source>
        <translation>Die Spannung ist eingeschwungen. Als Nächstes: {step} (Leertaste)</translation>
    </message>
    <message>
        <source>The time is up. Next: {step} (space bar)</source>
        <translation>Die Zeit ist um. Als Nächstes: {step} (Leertaste)</translation>
    </message>
    <message>
        <source>Steps of the run</source>
        <translation>Schritte der Messung</translation>
    </message>
    <message>
        <source>Step {number} of {count}: {words}</source>
        <translation>Schritt {number} von {count}: {words}</translation>
    </message>
</context>
<context>
    <name>Run watch</name>
    <message>
        <source>Second place …</source>
        <translation>Zweiter Ort …</translation>
    </message>
    <message>
        <source>sound off</source>
        <translation>Ton aus</translation>
    </message>
</context>
<context>
    <name>Run ways</name>
    <message>
        <source>A second copy can be begun while a run goes on.</source>
        <translation>Eine zweite Kopie lässt sich beginnen, während eine Messung läuft.</translation>
    </message>
    <message>
        <source>Folder for the second copy, best on another disk</source>
        <translation>Ordner für die zweite Kopie, am besten auf einer anderen Platte</translation>
    </message>
    <message>
        <source>A second copy is kept in {folder}</source>
        <translation>Eine zweite Kopie liegt in {folder}</translation>
    </message>
    <message>
        <source>“{kind}” lies {time} before a step of the voltage.</source>
        <translation>„{kind}“ liegt {time} vor einer Stufe der Spannung.</translation>
    </message>
    <message>
        <source>“{kind}” lies {time} after a step of the voltage.</source>
        <translation>„{kind}“ liegt {time} nach einer Stufe der Spannung.</translation>
    </message>
    <message>
        <source>Move it to the step (G)</source>
        <translation>Zur Stufe verschieben (G)</translation>
    </message>
</context>
<context>
    <name>Sheet editor</name>
    <message>
        <source>Steps to come</source>
        <translation>Kommende Schritte</translation>
    </message>
    <message>
        <source>Add a step</source>
        <translation>Schritt hinzufügen</translation>
    </message>
    <message>
        <source>Keep these steps</source>
        <translation>Diese Schritte behalten</translation>
    </message>
    <message>
        <source>Leave as it was (Esc)</source>
        <translation>Lassen, wie es war (Esc)</translation>
    </message>
    <message>
        <source>Wait afterwards: a time such as 90s or 15m, the words “until settled”, or nothing to go on when you like.</source>
        <translation>Danach warten: eine Zeit wie 90s oder 15m, die Worte „bis eingeschwungen“, oder nichts, um weiterzugehen, wann es passt.</translation>
    </message>
    <message>
        <source>Step {number}: {reason}</source>
        <translation>Schritt {number}: {reason}</translation>
    </message>
    <message>
        <source>What to do</source>
        <translation>Was zu tun ist</translation>
    </message>
    <message>
        <source>until settled</source>
        <translation>bis eingeschwungen</translation>
    </message>
    <message>
        <source>Up</source>
        <translation>Hinauf</translation>
    </message>
    <message>
        <source>Remove</source>
        <translation>Entfernen</translation>
    </message>
    <message>
        <source>Kind of step {number}</source>
        <translation>Art von Schritt {number}</translation>
    </message>
    <message>
        <source>What to do in step {number}</source>
        <translation>Was in Schritt {number} zu tun ist</translation>
    </message>
    <message>
        <source>How long to wait after step {number}</source>
        <translation>Wie lange nach Schritt {number} zu warten ist</translation>
    </message>
    <message>
        <source>Move step {number} up</source>
        <translation>Schritt {number} hinaufschieben</translation>
    </message>
    <message>
        <source>Remove step {number}</source>
        <translation>Schritt {number} entfernen</translation>
    </message>
</context>
<context>
    <name>Shelf</name>
    <message>
        <source>Search title, date, moments</source>
        <translation>Titel, Datum, Momente suchen</translation>
    </message>
    <message>
        <source>Search the shelf</source>
        <translation>Die Sammlung durchsuchen</translation>
    </message>
    <message>
        <source>Folder …</source>
        <translation>Ordner …</translation>
    </message>
    <message>
        <source>Folder and recent recordings</source>
        <translation>Ordner und letzte Aufzeichnungen</translation>
    </message>
    <message>
        <source>Look again</source>
        <translation>Noch einmal nachsehen</translation>
    </message>
    <message>
        <source>Recordings</source>
        <translation>Aufzeichnungen</translation>
    </message>
    <message>
        <source>Recordings end in .h5; what was dropped is none: {names}</source>
        <translation>Aufzeichnungen enden auf .h5; was hierher gezogen wurde, ist keine: {names}</translation>
    </message>
    <message>
        <source>Shelf</source>
        <translation>Sammlung</translation>
    </message>
    <message>
        <source>Looking into {folder} …</source>
        <translation>{folder} wird durchgesehen …</translation>
    </message>
    <message>
        <source>1 recording in {folder}</source>
        <translation>1 Aufzeichnung in {folder}</translation>
    </message>
    <message>
        <source>{count} recordings in {folder}</source>
        <translation>{count} Aufzeichnungen in {folder}</translation>
    </message>
    <message>
        <source>No recordings in {folder} yet; new ones appear here.</source>
        <translation>Noch keine Aufzeichnungen in {folder}; neue erscheinen hier.</translation>
    </message>
    <message>
        <source>Report (*.pdf)</source>
        <translation>Bericht (*.pdf)</translation>
    </message>
    <message>
        <source>Report for the browser (*.html)</source>
        <translation>Bericht für den Browser (*.html)</translation>
    </message>
    <message>
        <source>Picture (*.png)</source>
        <translation>Bild (*.png)</translation>
    </message>
    <message>
        <source>Picture to enlarge (*.svg)</source>
        <translation>Vergrößerbares Bild (*.svg)</translation>
    </message>
    <message>
        <source>class.pdf</source>
        <translation>klasse.pdf</translation>
    </message>
    <message>
        <source>Report for the class</source>
        <translation>Bericht für die Klasse</translation>
    </message>
    <message>
        <source>Eight runs can be told apart at most. Take the tick of one away first.</source>
        <translation>Höchstens acht Messungen lassen sich unterscheiden. Erst bei einer das Kreuz wegnehmen.</translation>
    </message>
    <message>
        <source>Choose a folder …</source>
        <translation>Ordner wählen …</translation>
    </message>
    <message>
        <source>The usual folder</source>
        <translation>Der übliche Ordner</translation>
    </message>
    <message>
        <source>{name} (not there: look for it …)</source>
        <translation>{name} (nicht da: suchen …)</translation>
    </message>
    <message>
        <source>Forget these</source>
        <translation>Diese vergessen</translation>
    </message>
    <message>
        <source>Nothing was opened yet</source>
        <translation>Noch wurde nichts geöffnet</translation>
    </message>
    <message>
        <source>Folder of recordings</source>
        <translation>Ordner mit Aufzeichnungen</translation>
    </message>
    <message>
        <source>Recordings (*.h5)</source>
        <translation>Aufzeichnungen (*.h5)</translation>
    </message>
    <message>
        <source>Start of the run</source>
        <translation>Beginn der Messung</translation>
    </message>
    <message>
        <source>Current on (phase before)</source>
        <translation>Strom an (Phase vorher)</translation>
    </message>
    <message>
        <source>Growth begins</source>
        <translation>Beginn des Wachstums</translation>
    </message>
    <message>
        <source>Fresh solution (phase after)</source>
        <translation>Frische Lösung (Phase nachher)</translation>
    </message>
    <message>
        <source>{what}, in {count} of {runs}</source>
        <translation>{what}, in {count} von {runs}</translation>
    </message>
    <message>
        <source>left out: {why}</source>
        <translation>weggelassen: {why}</translation>
    </message>
    <message>
        <source>lies off the others (Grubbs&apos; test)</source>
        <translation>weicht von den anderen ab (Grubbs-Test)</translation>
    </message>
    <message>
        <source>blank</source>
        <translation>Blindversuch</translation>
    </message>
    <message>
        <source>with salt</source>
        <translation>mit Salz</translation>
    </message>
    <message>
        <source>With salt</source>
        <translation>Mit Salz</translation>
    </message>
    <message>
        <source>Blanks</source>
        <translation>Blindversuche</translation>
    </message>
    <message>
        <source>{name}: {value} in one run; how it scatters is not known.</source>
        <translation>{name}: {value} in einer Messung; wie das streut, ist nicht bekannt.</translation>
    </message>
    <message>
        <source>{name}: {mean} on average of {count} (95 %); single runs scatter by {scatter}.</source>
        <translation>{name}: {mean} im Mittel von {count} (95 %); einzelne Messungen streuen um {scatter}.</translation>
    </message>
    <message>
        <source>Their own uncertainties, about {own} each, explain that scatter.</source>
        <translation>Ihre eigenen Unsicherheiten, je etwa {own}, erklären diese Streuung.</translation>
    </message>
    <message>
        <source>Their own uncertainties, about {own} each, do not explain that scatter: something else differs from run to run.</source>
        <translation>Ihre eigenen Unsicherheiten, je etwa {own}, erklären diese Streuung nicht: noch etwas anderes ist von Messung zu Messung verschieden.</translation>
    </message>
    <message>
        <source>Without the one that lies off: {mean} (for comparison only).</source>
        <translation>Ohne die abweichende: {mean} (nur zum Vergleich).</translation>
    </message>
    <message>
        <source>Salt against blanks: {shown} more saved (95 %, Welch).</source>
        <translation>Salz gegen Blindversuche: {shown} mehr eingespart (95 %, Welch).</translation>
    </message>
    <message>
        <source>The salt saves voltage; the handling alone does not explain it.</source>
        <translation>Das Salz spart Spannung; die Handgriffe allein erklären das nicht.</translation>
    </message>
    <message>
        <source>The runs with salt save less than the blanks do.</source>
        <translation>Die Messungen mit Salz sparen weniger als die Blindversuche.</translation>
    </message>
    <message>
        <source>No effect of the salt is shown: the interval holds zero.</source>
        <translation>Keine Wirkung des Salzes erkennbar: das Intervall enthält die Null.</translation>
    </message>
    <message>
        <source>{value}, not settled</source>
        <translation>{value}, nicht eingeschwungen</translation>
    </message>
    <message>
        <source>Align the runs at</source>
        <translation>Messungen ausrichten an</translation>
    </message>
    <message>
        <source>Aligned at</source>
        <translation>Ausgerichtet an</translation>
    </message>
    <message>
        <source>Take all ticks away</source>
        <translation>Alle Kreuze wegnehmen</translation>
    </message>
    <message>
        <source>Report for the class …</source>
        <translation>Bericht für die Klasse …</translation>
    </message>
    <message>
        <source>Table of the runs</source>
        <translation>Tabelle der Messungen</translation>
    </message>
    <message>
        <source>{count} runs over one another</source>
        <translation>{count} Messungen übereinander</translation>
    </message>
    <message>
        <source>{text}, reading {loading} …</source>
        <translation>{text}, {loading} werden gelesen …</translation>
    </message>
    <message>
        <source>Not compared: {why}.</source>
        <translation>Nicht verglichen: {why}.</translation>
    </message>
    <message>
        <source>Saved at equal current</source>
        <translation>Eingespart bei gleichem Strom</translation>
    </message>
    <message>
        <source>Saved, as measured</source>
        <translation>Eingespart, wie gemessen</translation>
    </message>
    <message>
        <source>Run</source>
        <translation>Messung</translation>
    </message>
    <message>
        <source>Before</source>
        <translation>Vorher</translation>
    </message>
    <message>
        <source>After</source>
        <translation>Nachher</translation>
    </message>
    <message>
        <source>Run {number}</source>
        <translation>Messung {number}</translation>
    </message>
    <message>
        <source>A run was cut off: {name}. Nothing is lost.</source>
        <translation>Eine Messung wurde unterbrochen: {name}. Nichts ist verloren.</translation>
    </message>
    <message>
        <source>{count} runs were cut off. Nothing is lost.</source>
        <translation>{count} Messungen wurden unterbrochen. Nichts ist verloren.</translation>
    </message>
    <message>
        <source>Finish now</source>
        <translation>Jetzt abschließen</translation>
    </message>
    <message>
        <source>cannot be read</source>
        <translation>nicht lesbar</translation>
    </message>
    <message>
        <source>was cut off</source>
        <translation>unterbrochen</translation>
    </message>
    <message>
        <source>is being recorded</source>
        <translation>wird aufgezeichnet</translation>
    </message>
    <message>
        <source>simulated</source>
        <translation>simuliert</translation>
    </message>
    <message>
        <source>Size</source>
        <translation>Größe</translation>
    </message>
    <message>
        <source>Begun</source>
        <translation>Begonnen</translation>
    </message>
    <message>
        <source>Length</source>
        <translation>Länge</translation>
    </message>
    <message>
        <source>Readings</source>
        <translation>Messwerte</translation>
    </message>
    <message>
        <source>Moments</source>
        <translation>Momente</translation>
    </message>
    <message>
        <source>Last reading</source>
        <translation>Letzter Messwert</translation>
    </message>
    <message>
        <source>Show findings</source>
        <translation>Ergebnisse zeigen</translation>
    </message>
    <message>
        <source>Finish this run</source>
        <translation>Diese Messung abschließen</translation>
    </message>
    <message>
        <source>Show folder</source>
        <translation>Ordner zeigen</translation>
    </message>
    <message>
        <source>Nothing chosen</source>
        <translation>Nichts gewählt</translation>
    </message>
    <message>
        <source>Tick two to eight runs (space bar) to lay them over one another.</source>
        <translation>Zwei bis acht Messungen ankreuzen (Leertaste), um sie übereinanderzulegen.</translation>
    </message>
    <message>
        <source>This file cannot be read: {why}. It was left as it is. If a file of that name ending in .journal lies beside it, finish that one; else take the copy you keep elsewhere.</source>
        <translation>Diese Datei ist nicht lesbar: {why}. Sie wurde gelassen, wie sie war. Liegt eine Datei dieses Namens mit der Endung .journal daneben, diese abschließen; sonst die Kopie nehmen, die anderswo liegt.</translation>
    </message>
    <message>
        <source>This run was cut off. Nothing is lost: {count} readings are in its journal. Finishing it makes the recording.</source>
        <translation>Diese Messung wurde unterbrochen. Nichts ist verloren: {count} Messwerte stehen in ihrem Journal. Abschließen macht daraus die Aufzeichnung.</translation>
    </message>
    <message>
        <source>This run is being recorded at the moment.</source>
        <translation>Diese Messung wird gerade aufgezeichnet.</translation>
    </message>
    <message>
        <source>Curve of the run, small</source>
        <translation>Kurve der Messung, klein</translation>
    </message>
    <message>
        <source>Curves over one another</source>
        <translation>Kurven übereinander</translation>
    </message>
</context>
<context>
    <name>Start page</name>
    <message>
        <source>A run needs a source of readings. Nothing connected yet? Try the lesson.</source>
        <translation>Eine Messung braucht eine Quelle von Messwerten. Noch nichts angeschlossen? Die simulierte Stunde ausprobieren.</translation>
    </message>
    <message>
        <source>Connect a meter</source>
        <translation>Messgerät anschließen</translation>
    </message>
    <message>
        <source>ports, what answers there, and what stands on the table</source>
        <translation>Anschlüsse, was dort antwortet, und was auf dem Tisch steht</translation>
    </message>
    <message>
        <source>Open recordings …</source>
        <translation>Aufzeichnungen öffnen …</translation>
    </message>
    <message>
        <source>and see what they show</source>
        <translation>und sehen, was sie zeigen</translation>
    </message>
    <message>
        <source>Simulated lesson</source>
        <translation>Simulierte Unterrichtsstunde</translation>
    </message>
    <message>
        <source>a whole lesson in a minute and a half, with invented data</source>
        <translation>eine ganze Stunde in anderthalb Minuten, mit erfundenen Daten</translation>
    </message>
    <message>
        <source>Opening {name} …</source>
        <translation>{name} wird geöffnet …</translation>
    </message>
    <message>
        <source>Nothing is recorded yet</source>
        <translation>Noch wird nichts aufgezeichnet</translation>
    </message>
</context>
<context>
    <name>Tagging</name>
    <message>
        <source>Tag: {words}</source>
        <translation>Moment: {words}</translation>
    </message>
    <message>
        <source>Move a moment</source>
        <translation>Moment verschieben</translation>
    </message>
    <message>
        <source>Words of a moment</source>
        <translation>Worte eines Moments</translation>
    </message>
    <message>
        <source>Remove a moment</source>
        <translation>Moment entfernen</translation>
    </message>
    <message>
        <source>Step: {words}</source>
        <translation>Schritt: {words}</translation>
    </message>
    <message>
        <source>Skip a step</source>
        <translation>Schritt überspringen</translation>
    </message>
    <message>
        <source>Repeat a step</source>
        <translation>Schritt wiederholen</translation>
    </message>
    <message>
        <source>Change the steps</source>
        <translation>Schritte ändern</translation>
    </message>
</context>
<context>
    <name>Wakefulness</name>
    <message>
        <source>Sleep is held off</source>
        <translation>Ruhezustand verhindert</translation>
    </message>
    <message>
        <source>Sleep is not held off: keep the computer awake</source>
        <translation>Ruhezustand nicht verhindert: den Rechner wach halten</translation>
    </message>
</context>
<context>
    <name>Wall view</name>
    <message>
        <source>Nothing is being recorded.</source>
        <translation>Es wird nichts aufgezeichnet.</translation>
    </message>
    <message>
        <source>Waiting for the first readings …</source>
        <translation>Wartet auf die ersten Messwerte …</translation>
    </message>
    <message>
        <source>last reading {age}</source>
        <translation>letzter Messwert {age}</translation>
    </message>
    <message>
        <source>Next: {step}, {hint}</source>
        <translation>Als Nächstes: {step}, {hint}</translation>
    </message>
    <message>
        <source>View for the wall</source>
        <translation>Großanzeige</translation>
    </message>
    <message>
        <source>saved so far</source>
        <translation>bisher eingespart</translation>
    </message>
    <message>
        <source>Danger</source>
        <translation>Gefahr</translation>
    </message>
</context>
<context>
    <name>Window</name>
    <message>
        <source>Moment at {time} removed.</source>
        <translation>Moment bei {time} entfernt.</translation>
    </message>
    <message>
        <source>Bring it back</source>
        <translation>Zurückholen</translation>
    </message>
    <message>
        <source>All cautions</source>
        <translation>Alle Hinweise</translation>
    </message>
    <message>
        <source>Understood</source>
        <translation>Verstanden</translation>
    </message>
    <message>
        <source>Saved as {path}</source>
        <translation>Gespeichert als {path}</translation>
    </message>
    <message>
        <source>Try again</source>
        <translation>Noch einmal versuchen</translation>
    </message>
    <message>
        <source>A fault of the program: {fault}. A recording goes on.</source>
        <translation>Ein Fehler des Programms: {fault}. Eine Aufzeichnung läuft weiter.</translation>
    </message>
    <message>
        <source>Copy details</source>
        <translation>Einzelheiten kopieren</translation>
    </message>
    <message>
        <source>Details copied: versions, system, the end of the log.</source>
        <translation>Einzelheiten kopiert: Versionen, System, das Ende des Protokolls.</translation>
    </message>
    <message>
        <source>Open recordings</source>
        <translation>Aufzeichnungen öffnen</translation>
    </message>
    <message>
        <source>Recordings (*.h5)</source>
        <translation>Aufzeichnungen (*.h5)</translation>
    </message>
    <message>
        <source>Picture saved as {path}</source>
        <translation>Bild gespeichert als {path}</translation>
    </message>
    <message>
        <source>Nothing to do: readings are saved to disk every second. Ctrl+E ends the run.</source>
        <translation>Nichts zu tun: Messwerte werden jede Sekunde gespeichert. Strg+E beendet die Messung.</translation>
    </message>
</context>
</TS>
