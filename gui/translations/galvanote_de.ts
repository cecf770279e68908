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
        <source>Copy the accuracy from the meter&apos;s data sheet to the bench.</source>
        <translation>Die Genauigkeit aus dem Datenblatt des Messgeräts beim Aufbau eintragen.</translation>
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
        <source>0.1 mol/L phosphate</source>
        <translation>0,1 mol/L Phosphat</translation>
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
        <source>Forget this calibration</source>
        <translation>Diese Kalibrierung vergessen</translation>
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
        <source>a lesson without salt (blank)</source>
        <translation>eine Unterrichtsstunde ohne Salz (blank)</translation>
    </message>
    <message>
        <source>a lesson, then long watching (stability)</source>
        <translation>eine Unterrichtsstunde, dann langes Beobachten (stability)</translation>
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
        <source>Plus (offset)</source>
        <translation>Plus (Versatz)</translation>
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
        <source>Calibration of {day}, 1 point: zero {zero}, gain {gain}. It corrects every run.</source>
        <translation>Kalibrierung vom {day}, 1 Punkt: Nullpunkt {zero}, Faktor {gain}. Sie korrigiert jede Messung.</translation>
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
        <source>The calibration is forgotten; it corrects no later run.</source>
        <translation>Die Kalibrierung ist vergessen; sie korrigiert keine spätere Messung.</translation>
    </message>
    <message>
        <source>Bring it back</source>
        <translation>Zurückholen</translation>
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
        <source>This is your bench of last time.</source>
        <translation>Das ist der Versuchsaufbau vom letzten Mal.</translation>
    </message>
    <message>
        <source>Show that of the simulated cell</source>
        <translation>Den der simulierten Zelle zeigen</translation>
    </message>
    <message>
        <source>This is the bench of the simulated cell.</source>
        <translation>Das ist der Versuchsaufbau der simulierten Zelle.</translation>
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
        <source>The values of the simulated cell are off the bench. Give those of your own supply and cell.</source>
        <translation>Die Werte der simulierten Zelle gehören nicht mehr zum Aufbau. Bitte die der eigenen Stromversorgung und Zelle angeben.</translation>
    </message>
    <message>
        <source>{file} is open. The changes to the bench before it are not saved.</source>
        <translation>{file} ist geöffnet. Die Änderungen am Aufbau davor sind nicht gespeichert.</translation>
    </message>
    <message>
        <source>Bring that bench back</source>
        <translation>Jenen Aufbau zurückholen</translation>
    </message>
    <message>
        <source>The bench of before is back. The changes to the other one are not saved.</source>
        <translation>Der Aufbau von vorher ist wieder da. Die Änderungen am anderen sind nicht gespeichert.</translation>
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
        <source>{file} is there already. To replace it, save it under its whole name.</source>
        <translation>{file} ist schon da. Zum Ersetzen unter dem ganzen Namen speichern.</translation>
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
        <source>“{title}” is still being recorded. One run at a time: end and save it?</source>
        <translation>„{title}“ wird noch aufgezeichnet. Immer nur eine Messung zugleich: beenden und speichern?</translation>
    </message>
    <message>
        <source>A run</source>
        <translation>Eine Messung</translation>
    </message>
    <message>
        <source>Save it, then record with this bench</source>
        <translation>Speichern, dann mit diesem Aufbau aufzeichnen</translation>
    </message>
    <message>
        <source>A port is not given back yet. Wait a few seconds and try again.</source>
        <translation>Ein Anschluss ist noch nicht frei. Einige Sekunden warten und noch einmal versuchen.</translation>
    </message>
    <message>
        <source>Other folder …</source>
        <translation>Anderer Ordner …</translation>
    </message>
    <message>
        <source>Choose the folder for recordings</source>
        <translation>Den Ordner für Aufzeichnungen wählen</translation>
    </message>
    <message>
        <source>Runs are recorded in {folder}</source>
        <translation>Messungen werden aufgezeichnet in {folder}</translation>
    </message>
    <message>
        <source>Folder for recordings</source>
        <translation>Ordner für Aufzeichnungen</translation>
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
        <source>saved so far, not final</source>
        <translation>bisher eingespart, vorläufig</translation>
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
        <source>{voltage} before, not settled</source>
        <translation>{voltage} vorher, nicht eingeschwungen</translation>
    </message>
    <message>
        <source>{voltage} after</source>
        <translation>{voltage} nachher</translation>
    </message>
    <message>
        <source>{voltage} after, not settled</source>
        <translation>{voltage} nachher, nicht eingeschwungen</translation>
    </message>
    <message>
        <source>{voltage} after, chosen by hand</source>
        <translation>{voltage} nachher, von Hand gewählt</translation>
    </message>
    <message>
        <source>beyond range</source>
        <translation>außerhalb</translation>
    </message>
    <message>
        <source>Curve of the cell voltage</source>
        <translation>Kurve der Zellspannung</translation>
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
        <translation>Simulierte Stunde</translation>
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
        <source>Slide (PNG)</source>
        <translation>Folie (PNG)</translation>
    </message>
    <message>
        <source>Page of A4 (PDF)</source>
        <translation>Seite A4 (PDF)</translation>
    </message>
    <message>
        <source>Column of a journal (PDF)</source>
        <translation>Spalte einer Zeitschrift (PDF)</translation>
    </message>
    <message>
        <source>Tables with decimal comma (CSV)</source>
        <translation>Tabellen mit Dezimalkomma (CSV)</translation>
    </message>
    <message>
        <source>Picture in another size</source>
        <translation>Bild in anderer Größe</translation>
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
    <name>Fields</name>
    <message>
        <source>on the page Bench</source>
        <translation>auf der Seite Aufbau</translation>
    </message>
    <message>
        <source>“{field}”</source>
        <translation>„{field}“</translation>
    </message>
</context>
<context>
    <name>File drops</name>
    <message>
        <source>Recordings end in .h5, bench files in .toml; what was dropped is neither: {names}</source>
        <translation>Aufzeichnungen enden auf .h5, Aufbau-Dateien auf .toml; was hierher gezogen wurde, ist keins von beiden: {names}</translation>
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
        <source>Written: {name} and {count} more files with it, in {folder}</source>
        <translation>Geschrieben: {name} und {count} weitere Dateien dazu, in {folder}</translation>
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
        <source>Start not known</source>
        <translation>Beginn nicht bekannt</translation>
    </message>
    <message>
        <source>{length} long</source>
        <translation>{length} lang</translation>
    </message>
    <message>
        <source>{count} readings</source>
        <translation>{count} Messwerte</translation>
    </message>
    <message>
        <source>not determined</source>
        <translation>nicht bestimmt</translation>
    </message>
    <message>
        <source>The warnings under “{tab}” say why, and what would help.</source>
        <translation>Die Warnungen unter „{tab}“ sagen, warum, und was helfen würde.</translation>
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
        <source>with {ohm}</source>
        <translation>mit {ohm}</translation>
    </message>
    <message>
        <source>Found as hydrogen</source>
        <translation>Als Wasserstoff gefunden</translation>
    </message>
    <message>
        <source>Found as oxygen</source>
        <translation>Als Sauerstoff gefunden</translation>
    </message>
    <message>
        <source>{volume} for {charge}</source>
        <translation>{volume} für {charge}</translation>
    </message>
    <message>
        <source>lead lifted at {time}</source>
        <translation>Leitung abgezogen bei {time}</translation>
    </message>
    <message>
        <source>Ohmic resistance</source>
        <translation>Ohmscher Widerstand</translation>
    </message>
    <message>
        <source>Standard uncertainty {standard}, times {factor} for 95 %: ±&#xa0;{expanded}. Bars show each source&apos;s share of the variance; type A from the readings, B from what is known.</source>
        <translation>Standardunsicherheit {standard}, mal {factor} für 95 %: ±&#xa0;{expanded}. Die Balken zeigen den Anteil jeder Quelle an der Varianz; Typ A aus den Messwerten, B aus sonst Bekanntem.</translation>
    </message>
    <message>
        <source>Slope {slope} for a decade of current, of both electrodes together (95 %). The meter&apos;s accuracy is in it, and not in the voltages below: those are of the readings alone.</source>
        <translation>Steigung {slope} pro Stromdekade, für beide Elektroden zusammen (95 %). Die Genauigkeit des Messgeräts steckt in ihr, nicht in den Spannungen darunter: diese sind die der Messwerte allein.</translation>
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
        <source>settled, without the meter</source>
        <translation>eingeschwungen, ohne Messgerät</translation>
    </message>
    <message>
        <source>not settled, without the meter</source>
        <translation>nicht eingeschwungen, ohne Messgerät</translation>
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
        <source>That follows as soon as the findings are there.</source>
        <translation>Das folgt, sobald die Ergebnisse da sind.</translation>
    </message>
    <message>
        <source>being worked out</source>
        <translation>wird berechnet</translation>
    </message>
    <message>
        <source>Voltage saved: {value}</source>
        <translation>Eingesparte Spannung: {value}</translation>
    </message>
    <message>
        <source>The findings of a long run take a while; its curve is there already.</source>
        <translation>Die Auswertung eines langen Laufs dauert etwas; seine Kurve ist schon da.</translation>
    </message>
    <message>
        <source>The findings were not worked out, since that was ended.</source>
        <translation>Die Auswertung wurde nicht berechnet, weil sie beendet wurde.</translation>
    </message>
    <message>
        <source>The findings are not kept in the file: {why}.</source>
        <translation>Die Ergebnisse werden nicht in der Datei behalten: {why}.</translation>
    </message>
    <message>
        <source>The moment is gone; its picture stays in the recording.</source>
        <translation>Der Zeitpunkt ist entfernt; sein Bild bleibt in der Aufzeichnung.</translation>
    </message>
    <message>
        <source>The moment is gone; its {count} pictures stay in the recording.</source>
        <translation>Der Zeitpunkt ist entfernt; seine {count} Bilder bleiben in der Aufzeichnung.</translation>
    </message>
    <message>
        <source>To remove them, too: undo, remove the pictures, then the moment.</source>
        <translation>Um auch sie zu entfernen: rückgängig machen, die Bilder entfernen, dann den Zeitpunkt.</translation>
    </message>
    <message>
        <source>The picture is in the clipboard; paste it where you like.</source>
        <translation>Das Bild ist in der Zwischenablage; jetzt beliebig einfügen.</translation>
    </message>
    <message>
        <source>give times within {begin} to {end}, at least {shortest} apart</source>
        <translation>Zeiten zwischen {begin} und {end} angeben, mindestens {shortest} auseinander</translation>
    </message>
    <message>
        <source>No moments were tagged.</source>
        <translation>Es wurden keine Momente festgehalten.</translation>
    </message>
    <message>
        <source>Add a moment</source>
        <translation>Moment hinzufügen</translation>
    </message>
    <message>
        <source>Adds a note in the middle of what the curve shows; then say when and what</source>
        <translation>Setzt eine Notiz in die Mitte dessen, was die Kurve zeigt; danach angeben, wann und was</translation>
    </message>
    <message>
        <source>Drag a flag above the curve to move its moment. The findings follow each change, the file keeps what was before, and Ctrl+Z takes it back.</source>
        <translation>Eine Fahne über der Kurve ziehen, um ihren Moment zu verschieben. Die Ergebnisse folgen jeder Änderung, die Datei behält, was vorher war, und Strg+Z nimmt sie zurück.</translation>
    </message>
    <message>
        <source>That took more than {seconds} s; perhaps it was done all the same.</source>
        <translation>Das dauerte länger als {seconds} s; vielleicht ist es trotzdem noch geschehen.</translation>
    </message>
    <message>
        <source>Analysing {name}</source>
        <translation>{name} wird ausgewertet</translation>
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
        <source>en</source>
        <translation>de</translation>
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
        <source>On the curve: read values off, with a cursor; once more: compare from here</source>
        <translation>Auf der Kurve: Werte ablesen, mit einer Lesemarke; noch einmal: von hier an vergleichen</translation>
    </message>
    <message>
        <source>With the cursor: to the reading before, to the next</source>
        <translation>Mit der Lesemarke: zum Messwert davor, zum nächsten</translation>
    </message>
    <message>
        <source>With the cursor: a tenth of the picture, also to the right</source>
        <translation>Mit der Lesemarke: ein Zehntel des Bildes, auch nach rechts</translation>
    </message>
    <message>
        <source>With the cursor: compare on the way, also to the right</source>
        <translation>Mit der Lesemarke: unterwegs vergleichen, auch nach rechts</translation>
    </message>
    <message>
        <source>Home, End</source>
        <translation>Pos1, Ende</translation>
    </message>
    <message>
        <source>With the cursor: the first reading, the newest</source>
        <translation>Mit der Lesemarke: der erste Messwert, der neueste</translation>
    </message>
    <message>
        <source>Esc</source>
        <translation>Esc</translation>
    </message>
    <message>
        <source>With the cursor: compare no more, then leave</source>
        <translation>Mit der Lesemarke: nicht mehr vergleichen, dann verlassen</translation>
    </message>
    <message>
        <source>The same keys</source>
        <translation>Dieselben Tasten</translation>
    </message>
    <message>
        <source>On runs laid over one another, of all of them: each its own reading there</source>
        <translation>Auf übereinander gelegten Messungen, für alle: von jeder ihr eigener Messwert dort</translation>
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
        <translation>Drift über {window} und Einschwinggrenze</translation>
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
        <source>The run is over: these are its last readings.</source>
        <translation>Die Messung ist zu Ende: Dies sind ihre letzten Messwerte.</translation>
    </message>
    <message>
        <source>no drift yet</source>
        <translation>noch keine Drift</translation>
    </message>
    <message>
        <source>Steady within {most}</source>
        <translation>Ruhig bis auf {most}</translation>
    </message>
    <message>
        <source>Rising by {least} to {most}</source>
        <translation>Steigt um {least} bis {most}</translation>
    </message>
    <message>
        <source>Falling by {least} to {most}</source>
        <translation>Fällt um {least} bis {most}</translation>
    </message>
    <message>
        <source>settled</source>
        <translation>eingeschwungen</translation>
    </message>
    <message>
        <source>not settled</source>
        <translation>nicht eingeschwungen</translation>
    </message>
    <message>
        <source>cannot tell</source>
        <translation>unklar</translation>
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
        <translation>noch unklar</translation>
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
        <translation>seit {time}</translation>
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
        <source>1 of {count} sends nothing</source>
        <translation>1 von {count} sendet nichts</translation>
    </message>
    <message>
        <source>{silent} of {count} send nothing</source>
        <translation>{silent} von {count} senden nichts</translation>
    </message>
    <message>
        <source>{count} sources</source>
        <translation>{count} Quellen</translation>
    </message>
    <message>
        <source>{count} sources, last {age}</source>
        <translation>{count} Quellen, letzter {age}</translation>
    </message>
    <message>
        <source>{rate}&#xa0;readings/s</source>
        <translation>{rate}&#xa0;Werte/s</translation>
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
    <name>Long job</name>
    <message>
        <source>{words}: being cancelled …</source>
        <translation>{words}: wird abgebrochen …</translation>
    </message>
    <message>
        <source>{words}: {percent}&#xa0;%</source>
        <translation>{words}: {percent}&#xa0;%</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Abbrechen</translation>
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
        <source>Pictures of a moment …</source>
        <translation>Bilder eines Moments …</translation>
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
        <source>Colours, language, sound</source>
        <translation>Farben, Sprache, Ton</translation>
    </message>
    <message>
        <source>Redo</source>
        <translation>Wiederherstellen</translation>
    </message>
    <message>
        <source>Moments</source>
        <translation>Momente</translation>
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
        <source>Close this recording</source>
        <translation>Diese Aufzeichnung schließen</translation>
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
        <source>Pages</source>
        <translation>Seiten</translation>
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
        <translation>vorher</translation>
    </message>
    <message>
        <source>after</source>
        <translation>nachher</translation>
    </message>
    <message>
        <source>growth</source>
        <translation>Wachstum</translation>
    </message>
    <message>
        <source>dry</source>
        <translation>trocken</translation>
    </message>
    <message>
        <source>exponential</source>
        <translation>Exponentialfunktion</translation>
    </message>
    <message>
        <source>logarithmic</source>
        <translation>Logarithmusfunktion</translation>
    </message>
    <message>
        <source>scatter before</source>
        <translation>Streuung vorher</translation>
    </message>
    <message>
        <source>scatter after</source>
        <translation>Streuung nachher</translation>
    </message>
    <message>
        <source>start-up before</source>
        <translation>Anlauf vorher</translation>
    </message>
    <message>
        <source>start-up after</source>
        <translation>Anlauf nachher</translation>
    </message>
    <message>
        <source>cell voltage</source>
        <translation>Zellspannung</translation>
    </message>
    <message>
        <source>shunt voltage</source>
        <translation>Shuntspannung</translation>
    </message>
    <message>
        <source>stack voltage</source>
        <translation>Stapelspannung</translation>
    </message>
    <message>
        <source>anode potential</source>
        <translation>Anodenpotential</translation>
    </message>
    <message>
        <source>time uncertain</source>
        <translation>Zeit unsicher</translation>
    </message>
    <message>
        <source>{path} exists; choose another name</source>
        <translation>{path} gibt es schon; einen anderen Namen wählen</translation>
    </message>
    <message>
        <source>{out} exists; choose another name</source>
        <translation>{out} gibt es schon; einen anderen Namen wählen</translation>
    </message>
    <message>
        <source>{target} exists; choose another name</source>
        <translation>{target} gibt es schon; einen anderen Namen wählen</translation>
    </message>
    <message>
        <source>the folder {folder} cannot be made ({strerror}); choose another folder on the page Bench</source>
        <translation>der Ordner {folder} lässt sich nicht anlegen ({strerror}); auf der Seite Aufbau einen anderen Ordner wählen</translation>
    </message>
    <message>
        <source>the words of a changed resistor must hold its ohms, for example 4.7k, not {label}</source>
        <translation>der Text zu einem gewechselten Widerstand muss dessen Ohm enthalten, zum Beispiel 4.7k, nicht {label}</translation>
    </message>
    <message>
        <source>the words of a temperature must hold degrees Celsius from 0 to 100, for example 22.5, not {label}</source>
        <translation>der Text zu einer Temperatur muss Grad Celsius von 0 bis 100 enthalten, zum Beispiel 22.5, nicht {label}</translation>
    </message>
    <message>
        <source>{size} readings are too few to go by; let the meter send for longer</source>
        <translation>{size} Messwerte sind zu wenig als Grundlage; das Messgerät länger senden lassen</translation>
    </message>
    <message>
        <source>two channels are called {name}. On the page Bench choose for one of the sources what it “Stands for”; two of one kind need “Name of the channel”, “More settings”.</source>
        <translation>zwei Kanäle heißen {name}. Auf der Seite Aufbau bei einer der Quellen unter „Steht für“ anderes wählen; zwei von einer Art brauchen „Name des Kanals“, „Weitere Angaben“.</translation>
    </message>
    <message>
        <source>the numbers are whole: counts of a converter, not volts. Write the volts per count in “Times (divider)” of the source, “More settings”, for example 0.0048828125.</source>
        <translation>die Zahlen sind ganz: Zählwerte eines Wandlers, keine Volt. Die Volt pro Zählwert in „Mal (Teiler)“ der Quelle, „Weitere Angaben“, schreiben, zum Beispiel 0.0048828125.</translation>
    </message>
    <message>
        <source>the meter would show {gain} V for each true volt; no sound meter is that far off. Was the known voltage really on its leads? A divider belongs in “Times (divider)” of the source, “More settings”</source>
        <translation>das Messgerät zeigte {gain} V für jedes wahre Volt; so falsch ist kein heiles Messgerät. Lag die bekannte Spannung wirklich an seinen Leitungen? Ein Teiler gehört in „Mal (Teiler)“ der Quelle, „Weitere Angaben“</translation>
    </message>
    <message>
        <source>The speed of {baud} baud may be wrong: choose another “Line speed” of the source, “More settings”.</source>
        <translation>{baud} Baud sind vielleicht falsch: eine andere „Baudrate“ der Quelle wählen, „Weitere Angaben“.</translation>
    </message>
    <message>
        <source>several columns may be the voltage ({named}). Write the one to record on the page Bench, “More settings”, “Column”, for example {example}; a list of columns fills a channel each.</source>
        <translation>mehrere Spalten können die Spannung sein ({named}). Die gewünschte auf der Seite Aufbau unter „Weitere Angaben“ bei „Spalte“ eintragen, zum Beispiel {example}; mehrere Spalten füllen je einen Kanal.</translation>
    </message>
    <message>
        <source>several names may be the voltage ({known}). Write the one to record on the page Bench, “More settings”, “Column”, for example {name}; a list of names fills a channel each.</source>
        <translation>mehrere Namen können die Spannung sein ({known}). Den gewünschten auf der Seite Aufbau unter „Weitere Angaben“ bei „Spalte“ eintragen, zum Beispiel {name}; mehrere Namen füllen je einen Kanal.</translation>
    </message>
    <message>
        <source>no name says which column is the voltage ({names}). Write {names_2} on the page Bench, “More settings”, “Column”, if that is the one.</source>
        <translation>kein Name sagt, welche Spalte die Spannung ist ({names}). Wenn es {names_2} ist, das auf der Seite Aufbau unter „Weitere Angaben“ bei „Spalte“ eintragen.</translation>
    </message>
    <message>
        <source>a line without {name}, which is recorded (it has {names}). If another one is meant, for example {names_2}, write it on the page Bench, “More settings”, “Column”</source>
        <translation>eine Zeile ohne {name}, das aufgezeichnet wird (sie hat {names}). Ist etwas anderes gemeint, zum Beispiel {names_2}, das auf der Seite Aufbau unter „Weitere Angaben“ bei „Spalte“ eintragen</translation>
    </message>
    <message>
        <source>no line has named the columns yet, so {column} is not known. Press the board&apos;s reset button if it prints the names when it starts, or write the number on the page Bench, “More settings”, “Column”: {known}.</source>
        <translation>noch keine Zeile hat die Spalten benannt, daher ist {column} nicht bekannt. Den Reset-Knopf der Platine drücken, wenn sie die Namen beim Start schreibt, oder die Nummer auf der Seite Aufbau unter „Weitere Angaben“ bei „Spalte“ eintragen: {known}.</translation>
    </message>
    <message>
        <source>A dry cell reads {reading_v} V, beyond the range of {range_v} V: take a higher range, or put a divider of {divider} to 1 (some megohms in all, so as not to load the cell) before the input and write {divider} in “Times (divider)” of the source, “More settings”. Before that, never let the cell run dry.</source>
        <translation>Eine trockene Zelle zeigt {reading_v} V, mehr als der Messbereich von {range_v} V: einen höheren Bereich wählen, oder einen Teiler {divider} zu 1 (zusammen einige Megaohm, damit er die Zelle nicht belastet) vor den Eingang schalten und bei der Quelle unter „Weitere Angaben“ in „Mal (Teiler)“ {divider} eintragen. Vorher darf die Zelle nie trocken werden.</translation>
    </message>
    <message>
        <source>While the cell is open (dry, or a lead off), the whole stack of {stack_v} V lies on the meter&apos;s input, whose range is {range_v} V: that reads as overload and may harm a board&apos;s input. Choose a larger range, or put a divider before it, for example {ratio}:1, and write {ratio} in “Times (divider)” of the source, “More settings”.</source>
        <translation>Solange die Zelle offen ist (trocken, oder eine Leitung ab), liegt der ganze Stapel mit {stack_v} V am Eingang des Messgeräts, dessen Messbereich {range_v} V ist: das wird als Überlauf gelesen und kann den Eingang einer Platine beschädigen. Einen größeren Bereich wählen, oder einen Teiler davorschalten, zum Beispiel {ratio}:1, und bei der Quelle unter „Weitere Angaben“ in „Mal (Teiler)“ {ratio} eintragen.</translation>
    </message>
    <message>
        <source>repeat</source>
        <translation>wiederholt</translation>
    </message>
    <message>
        <source>suspect</source>
        <translation>fraglich</translation>
    </message>
    <message>
        <source>parity</source>
        <translation>Parität falsch</translation>
    </message>
    <message>
        <source>low battery</source>
        <translation>Batterie schwach</translation>
    </message>
    <message>
        <source>relative</source>
        <translation>relativ (REL)</translation>
    </message>
    <message>
        <source>hold</source>
        <translation>festgehalten</translation>
    </message>
    <message>
        <source>overload</source>
        <translation>Überlauf</translation>
    </message>
    <message>
        <source>pascal</source>
        <translation>Pascal</translation>
    </message>
    <message>
        <source>minutes</source>
        <translation>Minuten</translation>
    </message>
    <message>
        <source>metre</source>
        <translation>Meter</translation>
    </message>
    <message>
        <source>megohm</source>
        <translation>Megaohm</translation>
    </message>
    <message>
        <source>litre</source>
        <translation>Liter</translation>
    </message>
    <message>
        <source>gram</source>
        <translation>Gramm</translation>
    </message>
    <message>
        <source>kilo-ohm</source>
        <translation>Kiloohm</translation>
    </message>
    <message>
        <source>hectopascal</source>
        <translation>Hektopascal</translation>
    </message>
    <message>
        <source>kelvin</source>
        <translation>Kelvin</translation>
    </message>
    <message>
        <source>microampere</source>
        <translation>Mikroampere</translation>
    </message>
    <message>
        <source>milliampere</source>
        <translation>Milliampere</translation>
    </message>
    <message>
        <source>milliwatt</source>
        <translation>Milliwatt</translation>
    </message>
    <message>
        <source>millivolt</source>
        <translation>Millivolt</translation>
    </message>
    <message>
        <source>Resistor</source>
        <translation>Vorwiderstand</translation>
    </message>
    <message>
        <source>Batteries</source>
        <translation>Batterien</translation>
    </message>
    <message>
        <source>drift before</source>
        <translation>Drift vorher</translation>
    </message>
    <message>
        <source>drift after</source>
        <translation>Drift nachher</translation>
    </message>
    <message>
        <source>scatter</source>
        <translation>Streuung</translation>
    </message>
    <message>
        <source>resolution</source>
        <translation>Auflösung</translation>
    </message>
    <message>
        <source>forward</source>
        <translation>vor</translation>
    </message>
    <message>
        <source>back</source>
        <translation>zurück</translation>
    </message>
    <message>
        <source>and</source>
        <translation>und</translation>
    </message>
    <message>
        <source>(simulated)</source>
        <translation>(simuliert)</translation>
    </message>
    <message>
        <source> Addresses to choose from: {ways}</source>
        <translation> Mögliche Adressen: {ways}</translation>
    </message>
    <message>
        <source>It is older than a year: accuracy not verified.</source>
        <translation>Sie ist älter als ein Jahr: die Genauigkeit ist nicht gesichert.</translation>
    </message>
    <message>
        <source> It reads {shown}: does the display agree?</source>
        <translation> Gelesen wird {shown}: stimmt die Anzeige überein?</translation>
    </message>
    <message>
        <source> No line ends.</source>
        <translation> Keine Zeile endet.</translation>
    </message>
    <message>
        <source> with {key}={value}</source>
        <translation> mit {key}={value}</translation>
    </message>
    <message>
        <source>, electrolysing {shape}</source>
        <translation>, elektrolysierend {shape}</translation>
    </message>
    <message>
        <source>, now on {now}; the run goes on</source>
        <translation>, jetzt an {now}; die Messung läuft weiter</translation>
    </message>
    <message>
        <source>0.01 to 1000 mV/min can be told from noise and are worth waiting for</source>
        <translation>0,01 bis 1000 mV/min lassen sich vom Rauschen unterscheiden und lohnen das Warten</translation>
    </message>
    <message>
        <source>0.1 mg to 10 g of salt are expected</source>
        <translation>0,1 mg bis 10 g Salz sind zu erwarten</translation>
    </message>
    <message>
        <source>256 &lt;= samples_kept &lt;= most_samples_kept &lt;= 64 * buckets_kept must hold</source>
        <translation>256 &lt;= samples_kept &lt;= most_samples_kept &lt;= 64 * buckets_kept muss gelten</translation>
    </message>
    <message>
        <source>5 s to 2 h are worth judging</source>
        <translation>5 s bis 2 h lassen sich sinnvoll beurteilen</translation>
    </message>
    <message>
        <source>; did you mean {near}?</source>
        <translation>; ist {near} gemeint?</translation>
    </message>
    <message>
        <source>; the run goes on</source>
        <translation>; die Messung läuft weiter</translation>
    </message>
    <message>
        <source>; the two voltages could not be compared at all</source>
        <translation>; die beiden Spannungen ließen sich gar nicht vergleichen</translation>
    </message>
    <message>
        <source>= {clean_label} is no time to hold</source>
        <translation>= {clean_label} ist keine Zeit zum Warten</translation>
    </message>
    <message>
        <source>= {current_a} on {anode_area_cm2} cm2 makes {density} mA/cm2</source>
        <translation>= {current_a} auf {anode_area_cm2} cm2 ergibt {density} mA/cm2</translation>
    </message>
    <message>
        <source>= {kind} is no kind of moment</source>
        <translation>= {kind} ist keine Art von Moment</translation>
    </message>
    <message>
        <source>= {resistor_rating_w} is too small, {reason}</source>
        <translation>= {resistor_rating_w} ist zu klein, {reason}</translation>
    </message>
    <message>
        <source>= {resolution_v} is more than a tenth of the range</source>
        <translation>= {resolution_v} ist mehr als ein Zehntel des Messbereichs</translation>
    </message>
    <message>
        <source>= {salt_mass_mg} in {volume_ml} mL is more than 1 mol/L</source>
        <translation>= {salt_mass_mg} in {volume_ml} mL ist mehr als 1 mol/L</translation>
    </message>
    <message>
        <source>= {shown} is impossible, {reason}</source>
        <translation>= {shown} ist unmöglich, {reason}</translation>
    </message>
    <message>
        <source>= {shown} looks like {slips}</source>
        <translation>= {shown} sieht aus wie {slips}</translation>
    </message>
    <message>
        <source>= {shown} must be a whole number</source>
        <translation>= {shown} muss eine ganze Zahl sein</translation>
    </message>
    <message>
        <source>A Tafel slope needs settled voltages with four or more resistors over a decade of current; tag each change of the resistor with its ohms.</source>
        <translation>Eine Tafel-Steigung braucht eingeschwungene Spannungen mit vier oder mehr Widerständen über eine Stromdekade; jeden Wechsel des Widerstands mit seinen Ohm festhalten.</translation>
    </message>
    <message>
        <source>A Tafel slope needs settled voltages with {fewest_points} or more resistors; {best} settled.</source>
        <translation>Eine Tafel-Steigung braucht eingeschwungene Spannungen mit {fewest_points} oder mehr Widerständen; {best} sind eingeschwungen.</translation>
    </message>
    <message>
        <source>A Tafel slope needs {missing} in the bench file.</source>
        <translation>Eine Tafel-Steigung braucht {missing} in der Aufbau-Datei.</translation>
    </message>
    <message>
        <source>A Tafel slope of {slope_v} mV per decade lies outside the {low_v} to {high_v} mV that {electrodes} electrode(s) are known for; look for points that had not settled, a wrong resistor or stack voltage, or an ohmic drop left out.</source>
        <translation>Eine Tafel-Steigung von {slope_v} mV pro Dekade liegt außerhalb der {low_v} bis {high_v} mV, die für {electrodes} Elektrode(n) bekannt sind; nach nicht eingeschwungenen Punkten suchen, nach falschem Widerstand oder falscher Stapelspannung, oder nach einem weggelassenen ohmschen Abfall.</translation>
    </message>
    <message>
        <source>A catalyst may need minutes before it shows.</source>
        <translation>Ein Katalysator braucht manchmal Minuten, bis er sich zeigt.</translation>
    </message>
    <message>
        <source>A dry cell puts {reading_v} V on the meter. Make sure that it bears that (converter boards bear {low_v} to {high_v} V and need a divider), and give [meter] range_V.</source>
        <translation>Eine trockene Zelle legt {reading_v} V an das Messgerät. Sicherstellen, dass es das verträgt (Wandlerplatinen vertragen {low_v} bis {high_v} V und brauchen einen Teiler), und [meter] range_V angeben.</translation>
    </message>
    <message>
        <source>A dry cell reads {reading_v} V, beyond the range of {range_v} V: take a higher range, or put a divider of {divider} to 1 (some megohms in all, so as not to load the cell) before the input and add scale={divider} to the source address. Before that, never let the cell run dry.</source>
        <translation>Eine trockene Zelle zeigt {reading_v} V, mehr als der Messbereich von {range_v} V: einen höheren Bereich wählen, oder einen Teiler {divider} zu 1 (zusammen einige Megaohm, damit er die Zelle nicht belastet) vor den Eingang schalten und scale={divider} in die Adresse der Quelle schreiben. Vorher darf die Zelle nie trocken werden.</translation>
    </message>
    <message>
        <source>A fault of the program: {error}</source>
        <translation>Ein Fehler des Programms: {error}</translation>
    </message>
    <message>
        <source>A frame was not recorded: {why}.</source>
        <translation>Ein Datenblock wurde nicht aufgezeichnet: {why}.</translation>
    </message>
    <message>
        <source>A stack shorted without its resistor gives amperes and burns. Insulate the terminals, put a fuse at the battery, never recharge primary cells, and take the leads off before changing the wiring. Extra-low voltage only; no home-made supply on the mains.</source>
        <translation>Ein ohne Vorwiderstand kurzgeschlossener Batteriestapel liefert mehrere Ampere und verursacht Verbrennungen. Pole isolieren, eine Sicherung direkt an die Batterie, Primärzellen nie laden, vor jedem Umbau die Leitungen abnehmen. Nur Kleinspannung; kein selbstgebautes Netzteil.</translation>
    </message>
    <message>
        <source>A supply that holds the current shows its highest voltage on a dry cell: set its voltage limit to what the meter bears, and never above 60 V.</source>
        <translation>Ein Netzgerät, das den Strom hält, zeigt an der trockenen Zelle seine höchste Spannung: seine Spannungsgrenze so einstellen, dass das Messgerät sie verträgt, und nie über 60 V.</translation>
    </message>
    <message>
        <source>A temperature was not used: the label “{label}” does not say clearly how many degrees Celsius. Write it as 22.5.</source>
        <translation>Eine Temperatur wurde nicht verwendet: der Text „{label}“ sagt nicht eindeutig, wie viele Grad Celsius. Als 22.5 schreiben.</translation>
    </message>
    <message>
        <source>AC and DC volts together</source>
        <translation>Wechsel- und Gleichspannung zugleich</translation>
    </message>
    <message>
        <source>AC volts</source>
        <translation>Wechselspannung</translation>
    </message>
    <message>
        <source>Acknowledging stopped: {error}. Recording goes on.</source>
        <translation>Das Bestätigen hat aufgehört: {error}. Die Aufzeichnung läuft weiter.</translation>
    </message>
    <message>
        <source>After the lift-out no electrolysis in new solution was seen.</source>
        <translation>Nach dem Herausheben war keine Elektrolyse in neuer Lösung zu sehen.</translation>
    </message>
    <message>
        <source>All {size} readings are {values} V: the meter holds its display, or is not connected to the cell. Nothing is concluded from them. Release HOLD, check the leads, and record again.</source>
        <translation>Alle {size} Messwerte sind {values} V: das Messgerät hält seine Anzeige fest oder ist nicht mit der Zelle verbunden. Daraus wird nichts geschlossen. HOLD lösen, Leitungen prüfen, neu aufzeichnen.</translation>
    </message>
    <message>
        <source>An open cell would read only {reading_v} V, which cannot be told from a poor contact; tag every lift-out, or take more batteries.</source>
        <translation>Eine offene Zelle zeigte nur {reading_v} V, was von einem schlechten Kontakt nicht zu unterscheiden ist; jedes Herausheben festhalten, oder mehr Batterien nehmen.</translation>
    </message>
    <message>
        <source>Assumed for the current: {assumed}.</source>
        <translation>Für den Strom angenommen: {assumed}.</translation>
    </message>
    <message>
        <source>Both gases rise from the same vessel, and their mixture burns from about 4 % hydrogen in air; the faintest spark is enough. Never close the vessel, never collect the gas, air the room, keep flames and sparks away, and do not pull a lead under a space filled with gas.</source>
        <translation>Beide Gase steigen aus demselben Gefäß auf, und ihr Gemisch brennt ab etwa 4 % Wasserstoff in Luft; der schwächste Funke genügt. Das Gefäß nie verschließen, das Gas nie auffangen, den Raum lüften, Flammen und Funken fernhalten, und unter angesammeltem Gas keine Leitung abziehen.</translation>
    </message>
    <message>
        <source>Buffer in</source>
        <translation>Puffer eingefüllt</translation>
    </message>
    <message>
        <source>Bytes arrive damaged (wrong parity); those readings are kept but marked. Check the cable, and keep bright light off an optical one.</source>
        <translation>Bytes kommen beschädigt an (falsche Parität); diese Messwerte werden behalten, aber markiert. Das Kabel prüfen, ein optisches vor hellem Licht schützen.</translation>
    </message>
    <message>
        <source>Calibration of {day} is applied to {name}: zero {zero_mv} mV, gain {gain}.</source>
        <translation>Die Kalibrierung vom {day} wird auf {name} angewendet: Nullpunkt {zero_mv} mV, Faktor {gain}.</translation>
    </message>
    <message>
        <source>Cobalt and nickel salts can cause cancer when breathed in, sensitise skin and lungs, may harm reproduction, and are very toxic to life in water. Follow the supplier&apos;s safety data sheet; use solutions made up by a qualified person; gloves and eye protection; no dust; never down the drain: collect them as heavy-metal waste. Many schools restrict or forbid them.</source>
        <translation>Cobalt- und Nickelsalze können beim Einatmen Krebs erzeugen, Haut und Atemwege sensibilisieren, die Fortpflanzung schädigen und sind sehr giftig für Wasserorganismen. Das Sicherheitsdatenblatt des Lieferanten befolgen; nur Lösungen verwenden, die eine fachkundige Person angesetzt hat; Handschuhe und Schutzbrille; kein Staub; nie in den Ausguss: als Schwermetallabfall sammeln. Viele Schulen beschränken oder verbieten sie.</translation>
    </message>
    <message>
        <source>Current, charge and gas need {missing} in the bench file.</source>
        <translation>Strom, Ladung und Gas brauchen {missing} in der Aufbau-Datei.</translation>
    </message>
    <message>
        <source>Data arrive from {port} but cannot be understood.{no_end} {speed_hint}</source>
        <translation>Von {port} kommen Daten, die sich nicht verstehen lassen.{no_end} {speed_hint}</translation>
    </message>
    <message>
        <source>Data arrive from {port} but hold no packet: {speed}the board sends something else (galvanote sources).</source>
        <translation>Von {port} kommen Daten, aber kein Paket: {speed}die Platine sendet etwas anderes (galvanote sources).</translation>
    </message>
    <message>
        <source>Data arrive from {port} but hold no {kind} frame: {byte_time_s}the meter may be of another kind (galvanote sources).</source>
        <translation>Von {port} kommen Daten, aber kein Datenblock der Art {kind}: {byte_time_s}das Messgerät ist von anderer Art (galvanote sources).</translation>
    </message>
    <message>
        <source>Dry cell</source>
        <translation>Zelle trocken</translation>
    </message>
    <message>
        <source>Each line has {columns} columns: {each}.</source>
        <translation>Jede Zeile hat {columns} Spalten: {each}.</translation>
    </message>
    <message>
        <source>Electrodes in</source>
        <translation>Elektroden eingetaucht</translation>
    </message>
    <message>
        <source>Electrodes out</source>
        <translation>Elektroden heraus</translation>
    </message>
    <message>
        <source>Falling, the current took {offset_mv} mV less than rising: the electrodes changed, or had not settled.</source>
        <translation>Fallend brauchte der Strom {offset_mv} mV weniger als steigend: die Elektroden änderten sich oder hatten sich nicht eingestellt.</translation>
    </message>
    <message>
        <source>Falling, the current took {offset_mv} mV more than rising: the electrodes changed, or had not settled.</source>
        <translation>Fallend brauchte der Strom {offset_mv} mV mehr als steigend: die Elektroden änderten sich oder hatten sich nicht eingestellt.</translation>
    </message>
    <message>
        <source>Faradaic efficiency</source>
        <translation>Faraday-Wirkungsgrad</translation>
    </message>
    <message>
        <source>Folded the last edits into {recording}</source>
        <translation>Die letzten Änderungen sind in {recording} übernommen</translation>
    </message>
    <message>
        <source>For the saving at equal current were assumed: {assumed}.</source>
        <translation>Für die Einsparung bei gleichem Strom wurde angenommen: {assumed}.</translation>
    </message>
    <message>
        <source>For {duration_s} s nothing could be read in the phase &apos;{phase}&apos;; its settled voltage is looked for in what follows. Check the cable, the range and the battery of the meter.</source>
        <translation>{duration_s} s lang war in der Phase „{phase}“ nichts zu lesen; ihre eingeschwungene Spannung wird danach gesucht. Kabel, Messbereich und Batterie des Messgeräts prüfen.</translation>
    </message>
    <message>
        <source>How a meter of the kind {kind} sends ({doubt}) is known from memory only. Compare once: does the display show {shown}?</source>
        <translation>Wie ein Messgerät der Art {kind} sendet ({doubt}), ist nur aus dem Gedächtnis bekannt. Einmal vergleichen: zeigt die Anzeige {shown}?</translation>
    </message>
    <message>
        <source>Hydrogen and oxygen</source>
        <translation>Wasserstoff und Sauerstoff</translation>
    </message>
    <message>
        <source>Is it a board that prints lines?</source>
        <translation>Ist es eine Platine, die Zeilen schreibt?</translation>
    </message>
    <message>
        <source>It can be read in more than one way ({ways}). {take}</source>
        <translation>Es lässt sich auf mehrere Arten lesen ({ways}). {take}</translation>
    </message>
    <message>
        <source>It can get hot, above all while the electrodes touch. Let it cool before you hold it.</source>
        <translation>Er kann heiß werden, vor allem wenn sich die Elektroden berühren. Vor dem Anfassen abkühlen lassen.</translation>
    </message>
    <message>
        <source>It reads {shown}. Does its display agree?</source>
        <translation>Gelesen wird {shown}. Stimmt die Anzeige überein?</translation>
    </message>
    <message>
        <source>Lead back</source>
        <translation>Leitung wieder dran</translation>
    </message>
    <message>
        <source>Lead lifted</source>
        <translation>Leitung abgezogen</translation>
    </message>
    <message>
        <source>Listening to {port}, at one line speed after the other. Nothing is sent: the instrument has to send by itself.</source>
        <translation>{port} wird abgehört, eine Leitungsgeschwindigkeit nach der anderen. Gesendet wird nichts: Das Gerät muss von selbst senden.</translation>
    </message>
    <message>
        <source>Mean and median {name} differ by {spread_v} mV: {window}.</source>
        <translation>Mittelwert und Median {name} unterscheiden sich um {spread_v} mV: {window}.</translation>
    </message>
    <message>
        <source>Metal salts</source>
        <translation>Metallsalze</translation>
    </message>
    <message>
        <source>No Tafel slope was found: the voltage does not rise with the current. Check the ohms of the labels and of the bench file.</source>
        <translation>Es wurde keine Tafel-Steigung gefunden: die Spannung steigt nicht mit dem Strom. Die Ohm in den Momenten und in der Aufbau-Datei prüfen.</translation>
    </message>
    <message>
        <source>No blank is in the statistics. Warming, ageing electrodes or the fresh buffer can save voltage too; run at least one with the same handling and no salt.</source>
        <translation>Kein Blindversuch ist in der Statistik. Auch Erwärmung, alternde Elektroden oder der frische Puffer können Spannung sparen; mindestens einen mit denselben Handgriffen und ohne Salz durchführen.</translation>
    </message>
    <message>
        <source>No calibration is applied: {error}.</source>
        <translation>Es wird keine Kalibrierung angewendet: {error}.</translation>
    </message>
    <message>
        <source>No data from {address} for {silent_s} s although it is open. Is the meter asleep or the cable off? Switch it on and press its transmit key.</source>
        <translation>Von {address} kommen seit {silent_s} s keine Daten, obwohl der Anschluss offen ist. Schläft das Messgerät, oder ist das Kabel ab? Einschalten und die Sendetaste drücken.</translation>
    </message>
    <message>
        <source>No effect is shown: the change is within two standard uncertainties.</source>
        <translation>Keine Wirkung erkennbar: die Änderung liegt innerhalb von zwei Standardunsicherheiten.</translation>
    </message>
    <message>
        <source>No moment says when the buffer came in; the voltage shows it.</source>
        <translation>Kein Moment sagt, wann der Puffer eingefüllt wurde; die Spannung zeigt es.</translation>
    </message>
    <message>
        <source>No moment says when the electrodes went back in; the voltage shows it.</source>
        <translation>Kein Moment sagt, wann die Elektroden wieder eintauchten; die Spannung zeigt es.</translation>
    </message>
    <message>
        <source>No moment says when the salt was added; the voltage began to fall here. Warming or a change of stirring can look the same.</source>
        <translation>Kein Moment sagt, wann das Salz zugegeben wurde; hier begann die Spannung zu fallen. Erwärmung oder geändertes Rühren können genauso aussehen.</translation>
    </message>
    <message>
        <source>No moment says when the solution was swapped; the voltage shows a lift-out.</source>
        <translation>Kein Moment sagt, wann die Lösung gewechselt wurde; die Spannung zeigt ein Herausheben.</translation>
    </message>
    <message>
        <source>No port is chosen; pick the one that the meter is plugged into</source>
        <translation>Kein Anschluss ist gewählt; bitte den wählen, an dem das Messgerät steckt</translation>
    </message>
    <message>
        <source>No reading for {silent_s} s. Check the meter and its cable.</source>
        <translation>Seit {silent_s} s kein Messwert. Messgerät und Kabel prüfen.</translation>
    </message>
    <message>
        <source>No readings come from the meter.</source>
        <translation>Vom Messgerät kommen keine Messwerte.</translation>
    </message>
    <message>
        <source>No run with salt is in the statistics.</source>
        <translation>Keine Messung mit Salz ist in der Statistik.</translation>
    </message>
    <message>
        <source>No salt was tagged and no lasting fall of the voltage was seen: taken as a run without it.</source>
        <translation>Es wurde keine Salzzugabe festgehalten und kein bleibender Abfall der Spannung gesehen: gilt als Messung ohne Salz.</translation>
    </message>
    <message>
        <source>No salt water: it can give off chlorine. Steel that holds nickel or chromium can dissolve. Buffers and caustic mist hurt eyes: wear protection, wash your hands, label every beaker.</source>
        <translation>Kein Salzwasser: daraus kann Chlor entstehen. Stahl mit Nickel oder Chrom kann sich auflösen. Puffer und ätzender Nebel schaden den Augen: Schutzbrille tragen, Hände waschen, jedes Becherglas beschriften.</translation>
    </message>
    <message>
        <source>No swap to fresh buffer was tagged or seen, so there is no voltage after. Lift the electrodes out for some seconds when swapping, or tag the swap.</source>
        <translation>Ein Wechsel zu frischem Puffer wurde weder festgehalten noch gesehen, daher gibt es keine Spannung nachher. Beim Wechseln die Elektroden einige Sekunden herausheben, oder den Wechsel festhalten.</translation>
    </message>
    <message>
        <source>No voltage: the electrodes touch, or nothing is switched on.</source>
        <translation>Keine Spannung: die Elektroden berühren sich, oder nichts ist eingeschaltet.</translation>
    </message>
    <message>
        <source>Nobody is listening at {port}. Start the serial server or emulator there, or check the number.</source>
        <translation>An {port} hört niemand zu. Den seriellen Server oder Emulator dort starten, oder die Nummer prüfen.</translation>
    </message>
    <message>
        <source>Not recorded: the board uses range {unknown}, and nothing tells what it is in volts.</source>
        <translation>Nicht aufgezeichnet: die Platine benutzt den Messbereich {unknown}, und nichts sagt, wie viel Volt das sind.</translation>
    </message>
    <message>
        <source>Not recorded: {problem}.</source>
        <translation>Nicht aufgezeichnet: {problem}.</translation>
    </message>
    <message>
        <source>Not recorded: {why}</source>
        <translation>Nicht aufgezeichnet: {why}</translation>
    </message>
    <message>
        <source>Nothing arrives from {port}. Is the board on, and does its program send packets?</source>
        <translation>Von {port} kommt nichts. Ist die Platine an, und sendet ihr Programm Pakete?</translation>
    </message>
    <message>
        <source>Nothing arrives from {port}. Switch the meter on and press its transmit key (often held for two seconds; the display then shows RS232 or a similar sign). Check that the cable sits right.</source>
        <translation>Von {port} kommt nichts. Das Messgerät einschalten und die Sendetaste drücken (oft zwei Sekunden lang; die Anzeige zeigt dann RS232 oder ein ähnliches Zeichen). Prüfen, ob das Kabel richtig sitzt.</translation>
    </message>
    <message>
        <source>Nothing arrives, however the lines of the port stand. Is the cable seated on the meter, the meter on, and sending (a long press of its transmit key)?</source>
        <translation>Es kommt nichts, wie auch immer die Leitungen des Anschlusses stehen. Sitzt das Kabel am Messgerät, ist es an, und sendet es (langer Druck auf die Sendetaste)?</translation>
    </message>
    <message>
        <source>Nothing arrives. Switch the instrument on; a handheld meter sends only after a long press of its transmit key, through an optical cable perhaps only with: galvanote sources --optical {port}. A meter that answers questions has to be asked: galvanote sources --ask {port}</source>
        <translation>Es kommt nichts. Das Gerät einschalten; ein Handmultimeter sendet erst nach langem Druck auf die Sendetaste, über ein optisches Kabel vielleicht nur mit: galvanote sources --optical {port}. Ein Messgerät, das auf Abfragen antwortet, muss gefragt werden: galvanote sources --ask {port}</translation>
    </message>
    <message>
        <source>Nothing was read from {address} for {still_s} s: the program was stopped, or the computer too busy. What was not kept for it meanwhile is missing: a gap.</source>
        <translation>Von {address} wurde {still_s} s lang nichts gelesen: das Programm war angehalten oder der Computer überlastet. Was inzwischen nicht für es aufbewahrt wurde, fehlt: eine Lücke.</translation>
    </message>
    <message>
        <source>On {port} is now another device than the one this run was begun with. Plug that one in again, or end the run and begin a new one.</source>
        <translation>An {port} ist jetzt ein anderes Gerät als das, mit dem diese Messung begann. Jenes wieder einstecken, oder die Messung beenden und eine neue beginnen.</translation>
    </message>
    <message>
        <source>On {port} now answers {identity}, but this run was begun with {identity_2}. Put that one back, or end the run and begin a new one.</source>
        <translation>An {port} antwortet jetzt {identity}, diese Messung begann aber mit {identity_2}. Jenes wieder anschließen, oder die Messung beenden und eine neue beginnen.</translation>
    </message>
    <message>
        <source>One blank does not show how much blanks scatter; make two or more.</source>
        <translation>Ein Blindversuch zeigt nicht, wie sehr Blindversuche streuen; zwei oder mehr durchführen.</translation>
    </message>
    <message>
        <source>One run with salt cannot tell how well the experiment repeats; make {fewest_replicates} or more.</source>
        <translation>Eine Messung mit Salz kann nicht sagen, wie gut sich der Versuch wiederholen lässt; {fewest_replicates} oder mehr durchführen.</translation>
    </message>
    <message>
        <source>Other solutions and electrodes</source>
        <translation>Andere Lösungen und Elektroden</translation>
    </message>
    <message>
        <source>Packets from {port} arrive damaged and are not used. Check cable and speed.</source>
        <translation>Pakete von {port} kommen beschädigt an und werden nicht verwendet. Kabel und Baudrate prüfen.</translation>
    </message>
    <message>
        <source>Packets of an unknown form arrive. Is the board&apos;s program newer than this one?</source>
        <translation>Es kommen Pakete unbekannter Form. Ist das Programm der Platine neuer als dieses?</translation>
    </message>
    <message>
        <source>Parts of the file are not as they were written (SHA-256 differs): {names}. What rests on them may be wrong. Use another copy of the recording if there is one; galvanote check looks at every part.</source>
        <translation>Teile der Datei sind nicht so, wie sie geschrieben wurden (SHA-256 weicht ab): {names}. Was darauf beruht, kann falsch sein. Nehmen Sie eine andere Kopie der Aufzeichnung, falls es eine gibt; galvanote check prüft jeden Teil.</translation>
    </message>
    <message>
        <source>Readings are missing or too rare in the last minutes.</source>
        <translation>In den letzten Minuten fehlen Messwerte, oder sie sind zu selten.</translation>
    </message>
    <message>
        <source>Readings of {channel} come again from {address}.</source>
        <translation>Von {channel} an {address} kommen wieder Messwerte.</translation>
    </message>
    <message>
        <source>Recognised by listening: {address}.{value}</source>
        <translation>Durch Abhören erkannt: {address}.{value}</translation>
    </message>
    <message>
        <source>Recovered {recording}</source>
        <translation>Wiederhergestellt: {recording}</translation>
    </message>
    <message>
        <source>Recovered {recording}, up to a damaged spot. More of the run lies behind it and could not be read in order: it is kept in {journal}. Copy that file to a safe place.</source>
        <translation>{recording} ist wiederhergestellt, bis zu einer beschädigten Stelle. Dahinter liegt noch mehr der Messung und ließ sich nicht der Reihe nach lesen: es bleibt in {journal}. Diese Datei an einen sicheren Ort kopieren.</translation>
    </message>
    <message>
        <source>Resistor changed</source>
        <translation>Widerstand gewechselt</translation>
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
        <source>Something could not be recorded: {error}.</source>
        <translation>Etwas ließ sich nicht aufzeichnen: {error}.</translation>
    </message>
    <message>
        <source>Splitting water in fresh buffer. The voltage has settled: the run can end.</source>
        <translation>Eingeschwungen in frischem Puffer: die Messung kann enden.</translation>
    </message>
    <message>
        <source>Splitting water in fresh buffer. The voltage is still settling.</source>
        <translation>Wasserspaltung in frischem Puffer. Die Spannung schwingt noch ein.</translation>
    </message>
    <message>
        <source>Splitting water while the catalyst grows.</source>
        <translation>Wasserspaltung, während der Katalysator wächst.</translation>
    </message>
    <message>
        <source>Splitting water.</source>
        <translation>Wasserspaltung.</translation>
    </message>
    <message>
        <source>Splitting water. The catalyst has grown: the voltage no longer falls.</source>
        <translation>Wasserspaltung. Der Katalysator ist gewachsen: die Spannung fällt nicht mehr.</translation>
    </message>
    <message>
        <source>Splitting water. The voltage has settled.</source>
        <translation>Wasserspaltung. Die Spannung ist eingeschwungen.</translation>
    </message>
    <message>
        <source>Splitting water. The voltage has settled: the salt can go in.</source>
        <translation>Wasserspaltung. Die Spannung ist eingeschwungen: das Salz kann hinein.</translation>
    </message>
    <message>
        <source>Splitting water. The voltage is still falling while the catalyst grows.</source>
        <translation>Wasserspaltung. Die Spannung fällt noch, während der Katalysator wächst.</translation>
    </message>
    <message>
        <source>Splitting water. The voltage is still settling.</source>
        <translation>Wasserspaltung. Die Spannung schwingt noch ein.</translation>
    </message>
    <message>
        <source>Stirring off</source>
        <translation>Rührer aus</translation>
    </message>
    <message>
        <source>Stirring on</source>
        <translation>Rührer an</translation>
    </message>
    <message>
        <source>Tafel slope in V per decade</source>
        <translation>Tafel-Steigung in V pro Dekade</translation>
    </message>
    <message>
        <source>Tafel slopes of {slope} ± {spread} mV per decade together</source>
        <translation>Tafel-Steigungen von zusammen {slope} ± {spread} mV pro Dekade</translation>
    </message>
    <message>
        <source>Take the column of the cell voltage, or the list, which fills a channel with each.</source>
        <translation>Die Spalte der Zellspannung nehmen, oder die Liste, die mit jeder einen Kanal füllt.</translation>
    </message>
    <message>
        <source>Take the one that agrees with the display.</source>
        <translation>Die nehmen, die mit der Anzeige übereinstimmt.</translation>
    </message>
    <message>
        <source>That the {words} are the same could not be checked for {unknown}; give them in the bench file.</source>
        <translation>Dass {words} gleich sind, ließ sich nicht prüfen für {unknown}; in der Aufbau-Datei angeben.</translation>
    </message>
    <message>
        <source>The Tafel slope is indicative only: {currents} currents over {decades} decades; {fewest_currents} over one decade are wanted.</source>
        <translation>Die Tafel-Steigung ist nur ein Anhaltspunkt: {currents} Ströme über {decades} Dekaden; nötig sind {fewest_currents} über eine Dekade.</translation>
    </message>
    <message>
        <source>The bench file in the recording was not used: {error}.</source>
        <translation>Die Aufbau-Datei in der Aufzeichnung wurde nicht verwendet: {error}.</translation>
    </message>
    <message>
        <source>The board dropped {dropped} samples before it could send them. Lower its rate.</source>
        <translation>Die Platine hat {dropped} Messwerte verworfen, bevor sie sie senden konnte. Ihre Rate senken.</translation>
    </message>
    <message>
        <source>The board on {port} declares other ranges or dividers than before. Readings from now on follow them.</source>
        <translation>Die Platine an {port} meldet andere Messbereiche oder Teiler als zuvor. Messwerte ab jetzt richten sich danach.</translation>
    </message>
    <message>
        <source>The board on {port} restarted; its clock begins anew. Check its supply.</source>
        <translation>Die Platine an {port} ist neu gestartet; ihre Uhr beginnt von vorn. Ihre Stromversorgung prüfen.</translation>
    </message>
    <message>
        <source>The board on {port}: {why}</source>
        <translation>Die Platine an {port}: {why}</translation>
    </message>
    <message>
        <source>The board samples another input than at the start of the run; it is not recorded.</source>
        <translation>Die Platine misst einen anderen Eingang als zu Beginn der Messung; das wird nicht aufgezeichnet.</translation>
    </message>
    <message>
        <source>The board says: {value}</source>
        <translation>Die Platine sagt: {value}</translation>
    </message>
    <message>
        <source>The board&apos;s buffer was full; samples were lost. Lower its rate or raise the line&apos;s speed.</source>
        <translation>Der Puffer der Platine war voll; Messwerte gingen verloren. Ihre Rate senken oder die Baudrate erhöhen.</translation>
    </message>
    <message>
        <source>The board&apos;s clock differs from the computer&apos;s by more than 1 %. Check its clock setting.</source>
        <translation>Die Uhr der Platine weicht um mehr als 1 % von der des Rechners ab. Ihre Uhreinstellung prüfen.</translation>
    </message>
    <message>
        <source>The board&apos;s clock differs from the computer&apos;s by {skew} %. Its times are matched to the computer&apos;s; check the board&apos;s clock setting.</source>
        <translation>Die Uhr der Platine weicht um {skew} % von der des Rechners ab. Ihre Zeiten werden an die des Rechners angepasst; die Uhreinstellung der Platine prüfen.</translation>
    </message>
    <message>
        <source>The board&apos;s converter did not answer; readings around that are marked. Check its wiring.</source>
        <translation>Der Wandler der Platine hat nicht geantwortet; die Messwerte um diese Zeit sind markiert. Seine Verdrahtung prüfen.</translation>
    </message>
    <message>
        <source>The board&apos;s first column counts neither milliseconds nor microseconds. Readings are timed by their arrival.</source>
        <translation>Die erste Spalte der Platine zählt weder Millisekunden noch Mikrosekunden. Für die Messwerte gilt die Zeit ihrer Ankunft.</translation>
    </message>
    <message>
        <source>The cell is dry: the meter shows the whole stack.</source>
        <translation>Die Zelle ist trocken: das Messgerät zeigt den ganzen Batteriestapel.</translation>
    </message>
    <message>
        <source>The cell is not splitting water at present.</source>
        <translation>Die Zelle spaltet zurzeit kein Wasser.</translation>
    </message>
    <message>
        <source>The cell makes hydrogen and oxygen: open vessel, fresh air, no sparks. Never short the batteries; the resistor can be hot; metal salts are toxic. Your local rules decide.</source>
        <translation>Die Zelle macht Wasserstoff und Sauerstoff: offenes Gefäß, frische Luft, keine Funken. Die Batterien nie kurzschließen; der Vorwiderstand kann heiß sein; Metallsalze sind giftig. Es gelten die Regeln vor Ort.</translation>
    </message>
    <message>
        <source>The cell needs more voltage after than before.</source>
        <translation>Die Zelle braucht nachher mehr Spannung als vorher.</translation>
    </message>
    <message>
        <source>The cell was not stirred alike at the two voltages, by the moments. Stirring changes the voltage by itself: leave the stirrer as it is until both are settled.</source>
        <translation>Nach den Momenten wurde bei den beiden Spannungen nicht gleich gerührt. Rühren ändert die Spannung von sich aus: den Rührer lassen, wie er ist, bis beide eingeschwungen sind.</translation>
    </message>
    <message>
        <source>The channel {name} is in {unit}, not in degC, and was not used.</source>
        <translation>Der Kanal {name} ist in {unit}, nicht in degC, und wurde nicht verwendet.</translation>
    </message>
    <message>
        <source>The circuit is open.</source>
        <translation>Der Stromkreis ist offen.</translation>
    </message>
    <message>
        <source>The circuit is open: the electrodes are out of the solution, or a lead is off.</source>
        <translation>Der Stromkreis ist offen: die Elektroden sind nicht in der Lösung, oder eine Leitung ist ab.</translation>
    </message>
    <message>
        <source>The computer slept for {awake} s; nothing was measured meanwhile. Switch off sleep while recording.</source>
        <translation>Der Rechner hat {awake} s geschlafen; solange wurde nichts gemessen. Beim Aufzeichnen den Ruhezustand abschalten.</translation>
    </message>
    <message>
        <source>The computer&apos;s clock was set {way} by {steady} s. The times of the run are not affected.</source>
        <translation>Die Uhr des Rechners wurde um {steady} s {way}gestellt. Die Zeiten der Messung sind nicht betroffen.</translation>
    </message>
    <message>
        <source>The copy in {parent} is not whole and stays as {name}; the whole run is {saved}.</source>
        <translation>Die Kopie in {parent} ist nicht vollständig und bleibt als {name}; die ganze Messung ist {saved}.</translation>
    </message>
    <message>
        <source>The copy in {parent} stopped: that disk took nothing for too long.</source>
        <translation>Die Kopie in {parent} hat aufgehört: jene Platte nahm zu lange nichts an.</translation>
    </message>
    <message>
        <source>The current density needs [cell] anode_area_cm2 in the bench file.</source>
        <translation>Die Stromdichte braucht [cell] anode_area_cm2 in der Aufbau-Datei.</translation>
    </message>
    <message>
        <source>The current would rise by {rise} % as the voltage falls{beyond}. A stack of {wanted_v} V or more holds it within {weak_regulation} %.</source>
        <translation>Der Strom stiege um {rise} %, während die Spannung fällt{beyond}. Ein Batteriestapel von {wanted_v} V oder mehr hält ihn innerhalb von {weak_regulation} %.</translation>
    </message>
    <message>
        <source>The disk cannot keep up: readings are being lost.</source>
        <translation>Die Platte kommt nicht mit: Messwerte gehen verloren.</translation>
    </message>
    <message>
        <source>The disk takes data again; nothing was lost.</source>
        <translation>Die Platte nimmt wieder Daten an; nichts ging verloren.</translation>
    </message>
    <message>
        <source>The disk under {parent} reports an error ({error}): from now on nothing is safe there. What was measured since the last good moment is kept in memory; name a second place.</source>
        <translation>Die Platte unter {parent} meldet einen Fehler ({error}): ab jetzt ist dort nichts mehr sicher. Was seit dem letzten guten Augenblick gemessen wurde, bleibt im Speicher; einen zweiten Ort angeben.</translation>
    </message>
    <message>
        <source>The drift has stayed within the limit.</source>
        <translation>Die Drift ist innerhalb der Grenze geblieben.</translation>
    </message>
    <message>
        <source>The drift is within the limit and must stay there.</source>
        <translation>Die Drift liegt innerhalb der Grenze und muss dort bleiben.</translation>
    </message>
    <message>
        <source>The electrodes or leads touch, or the supply is off. Separate them: the resistor gets warm.</source>
        <translation>Die Elektroden oder Leitungen berühren sich, oder die Stromversorgung ist aus. Trennen: der Vorwiderstand wird warm.</translation>
    </message>
    <message>
        <source>The fitted ohmic resistance is negative ({resistance} ohm), which no cell has; the points do not belong to one Tafel line.</source>
        <translation>Der angepasste ohmsche Widerstand ist negativ ({resistance} Ohm), was keine Zelle hat; die Punkte gehören nicht zu einer Tafel-Geraden.</translation>
    </message>
    <message>
        <source>The growth is described as {name}, but cannot be told from {names}.</source>
        <translation>Das Wachstum wird beschrieben als {name}, lässt sich aber nicht unterscheiden von {names}.</translation>
    </message>
    <message>
        <source>The instrument on {port} was disconnected at {at}. Everything up to then is kept. Plug it in again.</source>
        <translation>Das Gerät an {port} wurde um {at} getrennt. Alles bis dahin ist behalten. Wieder einstecken.</translation>
    </message>
    <message>
        <source>The last {lost_samples} readings are lost: the disk stayed full. {told}</source>
        <translation>Die letzten {lost_samples} Messwerte sind verloren: die Platte blieb voll. {told}</translation>
    </message>
    <message>
        <source>The live file had to be begun anew.</source>
        <translation>Die Mitlesedatei musste neu begonnen werden.</translation>
    </message>
    <message>
        <source>The live view stopped: {error}. Recording goes on.</source>
        <translation>Die Live-Ansicht hat aufgehört: {error}. Die Aufzeichnung läuft weiter.</translation>
    </message>
    <message>
        <source>The meter gives about {real} readings a second; {period_s} were asked for.</source>
        <translation>Das Messgerät liefert etwa {real} Messwerte pro Sekunde; verlangt waren {period_s}.</translation>
    </message>
    <message>
        <source>The meter of {input_ohm} ohm draws {percent} % of the current {name} beside the cell. That is not taken off current, charge and gas. Use a meter of 1 Mohm or more.</source>
        <translation>Das Messgerät mit {input_ohm} Ohm zieht neben der Zelle {percent} % des Stroms {name}. Das ist von Strom, Ladung und Gas nicht abgezogen. Ein Messgerät mit 1 MOhm oder mehr nehmen.</translation>
    </message>
    <message>
        <source>The meter on {port} did not answer in time.</source>
        <translation>Das Messgerät an {port} hat nicht rechtzeitig geantwortet.</translation>
    </message>
    <message>
        <source>The meter on {port} does not answer.</source>
        <translation>Das Messgerät an {port} antwortet nicht.</translation>
    </message>
    <message>
        <source>The meter on {port} has not said who it is (*IDN?). It is told to obey the line (SYST:REM) and asked once more. Is it on, and is the cable in place?</source>
        <translation>Das Messgerät an {port} hat nicht gesagt, wer es ist (*IDN?). Es wird auf Fernbedienung gestellt (SYST:REM) und noch einmal gefragt. Ist es eingeschaltet, und steckt das Kabel?</translation>
    </message>
    <message>
        <source>The meter on {port} is set to {function}. Set it to DC volts; nothing is recorded until then.</source>
        <translation>Das Messgerät an {port} ist auf {function} eingestellt. Auf Gleichspannung stellen; bis dahin wird nichts aufgezeichnet.</translation>
    </message>
    <message>
        <source>The meter on {port} says neither who it is (*IDN?) nor what is wrong (SYST:ERR?). It is asked for a reading ({query}) all the same, twice, which takes up to 15 s. Is it on, and set to {baud} baud 8N1?</source>
        <translation>Das Messgerät an {port} sagt weder, wer es ist (*IDN?), noch, was fehlt (SYST:ERR?). Es wird trotzdem zweimal um einen Messwert gebeten ({query}); das dauert bis zu 15 s. Ist es eingeschaltet und auf {baud} Baud 8N1 gestellt?</translation>
    </message>
    <message>
        <source>The meter on {port} stopped sending {silent_s} s ago, although the port is there. Most meters fall asleep after 15 to 30 minutes: switch it on, press its transmit key (often held for two seconds), and switch its automatic power-off off.</source>
        <translation>Das Messgerät an {port} sendet seit {silent_s} s nichts mehr, obwohl der Anschluss da ist. Die meisten Messgeräte schlafen nach 15 bis 30 Minuten ein: einschalten, die Sendetaste drücken (oft zwei Sekunden lang), und die Abschaltautomatik ausschalten.</translation>
    </message>
    <message>
        <source>The meter on {port} was asked who it is (*IDN?) and may take some seconds to answer.</source>
        <translation>Das Messgerät an {port} wurde gefragt, wer es ist (*IDN?); die Antwort kann einige Sekunden dauern.</translation>
    </message>
    <message>
        <source>The meter on {port} was asked {query}, but {misfit}. Set it to DC volts, one reading at a time.</source>
        <translation>Das Messgerät an {port} wurde nach {query} gefragt, aber {misfit}. Auf Gleichspannung stellen, ein Messwert auf einmal.</translation>
    </message>
    <message>
        <source>The meter reports: {error}, {error_2}.</source>
        <translation>Das Messgerät meldet: {error}, {error_2}.</translation>
    </message>
    <message>
        <source>The meter says AC and DC at once. If it is on DC volts (V⎓), it orders its signs another way: add column=b to the address. Nothing is recorded until then.</source>
        <translation>Das Messgerät sagt Wechsel- und Gleichspannung zugleich. Steht es auf Gleichspannung (V⎓), ordnet es seine Zeichen anders: column=b an die Adresse anhängen. Bis dahin wird nichts aufgezeichnet.</translation>
    </message>
    <message>
        <source>The meter says that its battery is low. Change it: readings may be off.</source>
        <translation>Das Messgerät meldet eine schwache Batterie. Wechseln: die Messwerte können falsch sein.</translation>
    </message>
    <message>
        <source>The meter sends a sign whose meaning is not known here. Check on its display that neither HOLD, MAX, MIN nor REL is on.</source>
        <translation>Das Messgerät sendet ein Zeichen, dessen Bedeutung hier nicht bekannt ist. An der Anzeige prüfen, dass weder HOLD, MAX, MIN noch REL an ist.</translation>
    </message>
    <message>
        <source>The meter sends {strip} where digits should be: probably above its range (OL). Choose a larger range. Nothing is recorded until then.</source>
        <translation>Das Messgerät sendet {strip}, wo Ziffern stehen sollten: wahrscheinlich über seinem Messbereich (OL). Einen größeren Messbereich wählen. Bis dahin wird nichts aufgezeichnet.</translation>
    </message>
    <message>
        <source>The meter shows UL: the voltage is below what it can measure.</source>
        <translation>Das Messgerät zeigt UL: die Spannung ist kleiner, als es messen kann.</translation>
    </message>
    <message>
        <source>The meter shows no voltage that can be read.</source>
        <translation>Das Messgerät zeigt keine lesbare Spannung.</translation>
    </message>
    <message>
        <source>The meter shows overload. Choose a larger range and keep it.</source>
        <translation>Das Messgerät zeigt Überlauf. Einen größeren Messbereich wählen und dabei bleiben.</translation>
    </message>
    <message>
        <source>The meter shows {mode}. Turn the dial to DC volts (V⎓). Nothing is recorded until then.</source>
        <translation>Das Messgerät zeigt {mode}. Den Drehschalter auf Gleichspannung (V⎓) stellen. Bis dahin wird nichts aufgezeichnet.</translation>
    </message>
    <message>
        <source>The meter subtracted a stored value from some readings (REL); absolute voltages are not sure.</source>
        <translation>Das Messgerät hat von einigen Messwerten einen gespeicherten Wert abgezogen (REL); absolute Spannungen sind nicht sicher.</translation>
    </message>
    <message>
        <source>The meter subtracts a stored value (REL or Δ). Press that key again to end it. Nothing is recorded until then.</source>
        <translation>Das Messgerät zieht einen gespeicherten Wert ab (REL oder Δ). Zum Beenden diese Taste noch einmal drücken. Bis dahin wird nichts aufgezeichnet.</translation>
    </message>
    <message>
        <source>The meter&apos;s accuracy is not fully known ({unknown}), so the uncertainty of the voltages is understated. Give it in the bench file.</source>
        <translation>Die Genauigkeit des Messgeräts ist nicht ganz bekannt ({unknown}), die Unsicherheit der Spannungen ist also zu klein angegeben. In der Aufbau-Datei angeben.</translation>
    </message>
    <message>
        <source>The meter&apos;s accuracy is not known for {bare}: it looks more certain than the others and is not. Give it in the bench file.</source>
        <translation>Die Genauigkeit des Messgeräts ist nicht bekannt für {bare}: das wirkt sicherer als die anderen und ist es nicht. In der Aufbau-Datei angeben.</translation>
    </message>
    <message>
        <source>The meter&apos;s display is held (HOLD, MAX or MIN): its readings are kept but marked. Press that key again.</source>
        <translation>Die Anzeige des Messgeräts ist festgehalten (HOLD, MAX oder MIN): seine Messwerte werden behalten, aber markiert. Diese Taste noch einmal drücken.</translation>
    </message>
    <message>
        <source>The meter&apos;s leads are reversed. The recording is kept as read.</source>
        <translation>Die Messleitungen sind vertauscht. Die Aufzeichnung bleibt, wie gemessen.</translation>
    </message>
    <message>
        <source>The meter&apos;s leads were reversed (negative readings). Magnitudes are used; the recording stays as read. Swap the leads next time.</source>
        <translation>Die Messleitungen waren vertauscht (negative Messwerte). Verwendet werden die Beträge; die Aufzeichnung bleibt, wie gemessen. Nächstes Mal die Leitungen tauschen.</translation>
    </message>
    <message>
        <source>The meter&apos;s signs come in an order that was not seen before, or it is on AC volts. Turn the dial to DC volts (V⎓); if it is there already, please report these bytes: </source>
        <translation>Die Zeichen des Messgeräts kommen in einer bisher nicht gesehenen Ordnung, oder es steht auf Wechselspannung. Den Drehschalter auf Gleichspannung (V⎓) stellen; steht er schon dort, bitte diese Bytes melden: </translation>
    </message>
    <message>
        <source>The moment &apos;{kind}&apos; is at {tagged_s}, but the voltage stepped at {seen_s}; move the moment there if they belong together.</source>
        <translation>Der Moment „{kind}“ liegt bei {tagged_s}, die Spannung sprang aber bei {seen_s}; gehören sie zusammen, den Moment dorthin verschieben.</translation>
    </message>
    <message>
        <source>The noise does not yet let the drift be told.</source>
        <translation>Das Rauschen lässt die Drift noch nicht erkennen.</translation>
    </message>
    <message>
        <source>The ohmic drop was left out, and there are too few points to tell whether it matters; the slope may be much too large.</source>
        <translation>Der ohmsche Abfall wurde weggelassen, und es sind zu wenige Punkte, um zu sagen, ob er etwas ausmacht; die Steigung ist vielleicht viel zu groß.</translation>
    </message>
    <message>
        <source>The ohmic drop was left out, but the points show one: the slope is too large. Fit it too.</source>
        <translation>Der ohmsche Abfall wurde weggelassen, aber die Punkte zeigen einen: die Steigung ist zu groß. Ihn mit anpassen.</translation>
    </message>
    <message>
        <source>The open cell read {seen_v} V, but the bench file makes it {stated_v} V; check the batteries and supply.stack_voltage_V.</source>
        <translation>Die offene Zelle zeigte {seen_v} V, nach der Aufbau-Datei wären es {stated_v} V; Batterien und supply.stack_voltage_V prüfen.</translation>
    </message>
    <message>
        <source>The points lie further from the Tafel line than their uncertainties explain: not one line, or the electrodes changed between the points.</source>
        <translation>Die Punkte liegen weiter von der Tafel-Geraden, als ihre Unsicherheiten erklären: keine einzelne Gerade, oder die Elektroden haben sich zwischen den Punkten verändert.</translation>
    </message>
    <message>
        <source>The port does not open in time. Is it a wireless one, or its device off?</source>
        <translation>Der Anschluss öffnet sich nicht rechtzeitig. Ist er drahtlos, oder ist sein Gerät aus?</translation>
    </message>
    <message>
        <source>The readings before and after go in steps of different size: the meter or its range was changed between them, so its accuracy counts for each of the two voltages. Lock the range next time.</source>
        <translation>Die Messwerte vorher und nachher gehen in verschieden großen Schritten: dazwischen wurde das Messgerät oder sein Messbereich gewechselt, seine Genauigkeit zählt also für jede der beiden Spannungen. Nächstes Mal den Messbereich festhalten.</translation>
    </message>
    <message>
        <source>The readings come too rarely: {fewest_samples} are needed in the window.</source>
        <translation>Die Messwerte kommen zu selten: {fewest_samples} sind im Abschnitt nötig.</translation>
    </message>
    <message>
        <source>The readings go in other steps than before: another meter or range? Its accuracy counts for each voltage now. Go back to the former range and lock it.</source>
        <translation>Die Messwerte gehen in anderen Schritten als vorher: ein anderes Messgerät oder ein anderer Bereich? Seine Genauigkeit zählt jetzt für jede der beiden Spannungen. Zum vorigen Bereich zurückgehen und ihn festhalten.</translation>
    </message>
    <message>
        <source>The readings go in steps of {seen_v} mV, coarser than the {stated_v} mV of the bench file; the coarser step counts. Lock the range that shows more digits.</source>
        <translation>Die Messwerte gehen in Schritten von {seen_v} mV, gröber als die {stated_v} mV der Aufbau-Datei; der gröbere Schritt zählt. Den Messbereich festhalten, der mehr Stellen zeigt.</translation>
    </message>
    <message>
        <source>The readings {name} are one and the same for {held_s} s, though readings scatter by {scatter_mv} mV: did the meter hold its display? Then the voltage {name} is not that of the cell.</source>
        <translation>Die Messwerte {name} sind {held_s} s lang ein und derselbe, obwohl Messwerte um {scatter_mv} mV streuen: hielt das Messgerät seine Anzeige fest? Dann ist die Spannung {name} nicht die der Zelle.</translation>
    </message>
    <message>
        <source>The recorded stack voltage of {stack_v} V is far from the {stated_v} V of the bench file, and is not used. Check its scale (divider) and supply.stack_voltage_V.</source>
        <translation>Die aufgenommene Stapelspannung von {stack_v} V liegt weit von den {stated_v} V der Aufbau-Datei und wird nicht verwendet. Ihren Maßstab (Teiler) und supply.stack_voltage_V prüfen.</translation>
    </message>
    <message>
        <source>The recording holds no channel with the cell voltage.</source>
        <translation>Die Aufzeichnung enthält keinen Kanal mit der Zellspannung.</translation>
    </message>
    <message>
        <source>The recording holds no readings of the cell voltage.</source>
        <translation>Die Aufzeichnung enthält keine Messwerte der Zellspannung.</translation>
    </message>
    <message>
        <source>The recording holds several channels with the cell voltage ({named}); only {named_2} is used. Record one, or give the others another role.</source>
        <translation>Die Aufzeichnung enthält mehrere Kanäle mit der Zellspannung ({named}); nur {named_2} wird verwendet. Einen aufzeichnen, oder den anderen eine andere Rolle geben.</translation>
    </message>
    <message>
        <source>The runs differ in {key}: {stated}. They are replicates only if that does not matter.</source>
        <translation>Die Messungen unterscheiden sich in {key}: {stated}. Wiederholungen sind sie nur, wenn das nichts ausmacht.</translation>
    </message>
    <message>
        <source>The salt went in before the voltage had settled, so what the bare electrodes need is not known well. Next time wait until the program says settled.</source>
        <translation>Das Salz kam hinein, bevor die Spannung eingeschwungen war; was die blanken Elektroden brauchen, ist also nicht gut bekannt. Nächstes Mal warten, bis das Programm „eingeschwungen“ sagt.</translation>
    </message>
    <message>
        <source>The saving is stated as measured; at equal current it needs the currents.</source>
        <translation>Die Einsparung ist angegeben wie gemessen; für gleichen Strom braucht sie die Ströme.</translation>
    </message>
    <message>
        <source>The savings are compared as measured, since not every run has one at equal current; those need the supply in the bench file.</source>
        <translation>Die Einsparungen werden verglichen wie gemessen, da nicht jede Messung eine bei gleichem Strom hat; dazu braucht es die Stromversorgung in der Aufbau-Datei.</translation>
    </message>
    <message>
        <source>The sign of the readings changed during the run. Leads swapped at the meter do no harm, but electrodes swapped at the supply make the comparison meaningless.</source>
        <translation>Das Vorzeichen der Messwerte hat während der Messung gewechselt. Vertauschte Leitungen am Messgerät schaden nicht, aber an der Stromversorgung vertauschte Elektroden machen den Vergleich sinnlos.</translation>
    </message>
    <message>
        <source>The solution was swapped again: the voltage after is that up to there.</source>
        <translation>Die Lösung wurde wieder gewechselt: die Spannung nachher ist die bis dorthin.</translation>
    </message>
    <message>
        <source>The source has nothing more to give.</source>
        <translation>Von der Quelle kommt nichts mehr.</translation>
    </message>
    <message>
        <source>The speed of {baud} baud may be wrong: add baud= to the address.</source>
        <translation>Die Geschwindigkeit von {baud} Baud ist vielleicht falsch: baud= an die Adresse anhängen.</translation>
    </message>
    <message>
        <source>The stack had {stack_v} V here, by the bench file {stated_v} V. The current at this voltage follows from what was recorded, but charge and gas from the bench file.</source>
        <translation>Der Stapel hatte hier {stack_v} V, laut Aufbau-Datei {stated_v} V. Der Strom bei dieser Spannung folgt aus dem Aufgenommenen, Ladung und Gas aber aus der Aufbau-Datei.</translation>
    </message>
    <message>
        <source>The stack measures {measured_v} V, {deviation} % from its batteries as declared; look for one that is empty or turned round.</source>
        <translation>Der Batteriestapel misst {measured_v} V, {deviation} % neben der Angabe seiner Batterien; nach einer leeren oder verdrehten suchen.</translation>
    </message>
    <message>
        <source>The stack voltage is not given; the highest reading ({seen_v} V) is taken for the open cell. Give supply.stack_voltage_V in the bench file.</source>
        <translation>Die Stapelspannung ist nicht angegeben; der höchste Messwert ({seen_v} V) gilt als die offene Zelle. In der Aufbau-Datei supply.stack_voltage_V angeben.</translation>
    </message>
    <message>
        <source>The step with {named} is not in the Tafel line: {reason}.</source>
        <translation>Die Stufe mit {named} ist nicht in der Tafel-Geraden: {reason}.</translation>
    </message>
    <message>
        <source>The supply holds the current by itself, so changing the resistor gives no Tafel slope.</source>
        <translation>Das Netzgerät hält den Strom selbst, ein Wechsel des Widerstands ergibt also keine Tafel-Steigung.</translation>
    </message>
    <message>
        <source>The supply is said to hold {constant_a} mA. How well it does is not known, so current, charge and gas have no uncertainty. Measure the current in the loop once.</source>
        <translation>Die Stromquelle hält laut Angabe {constant_a} mA. Wie gut, ist nicht bekannt, Strom, Ladung und Gas haben darum keine Unsicherheit. Den Strom im Kreis einmal messen.</translation>
    </message>
    <message>
        <source>The swap at {out_s} lies before the salt at {salt_s}. If the salt was tagged too late, move its moment to where it went in.</source>
        <translation>Der Wechsel bei {out_s} liegt vor dem Salz bei {salt_s}. Wurde das Salz zu spät markiert, seinen Moment dorthin verschieben, wo es hineinkam.</translation>
    </message>
    <message>
        <source>The temperature noted at {time_s} counts for neither voltage. Note it while the voltage before, and while the voltage after, settles.</source>
        <translation>Die bei {time_s} notierte Temperatur zählt für keine der beiden Spannungen. Sie notieren, während die Spannung vorher und während die Spannung nachher einschwingt.</translation>
    </message>
    <message>
        <source>The voltage fell by {total_v} mV without having settled first, and no moment says when the salt was added: what the bare electrodes need is not known.</source>
        <translation>Die Spannung fiel um {total_v} mV, ohne zuvor eingeschwungen zu sein, und kein Moment sagt, wann das Salz zugegeben wurde: was die blanken Elektroden brauchen, ist nicht bekannt.</translation>
    </message>
    <message>
        <source>The voltage is too high: a dry cell, a loose clip, or too little solution.</source>
        <translation>Die Spannung ist zu hoch: trockene Zelle, lose Klemme oder zu wenig Lösung.</translation>
    </message>
    <message>
        <source>The voltage is too low to split water.</source>
        <translation>Die Spannung ist zu niedrig, um Wasser zu spalten.</translation>
    </message>
    <message>
        <source>The voltage jumped in the phase &apos;{phase}&apos;: {moved} all at once, and no moment says why. If a lead, a contact or an electrode moved, the two voltages cannot be compared: repeat the run.</source>
        <translation>Die Spannung sprang in der Phase „{phase}“: {moved} auf einmal, und kein Moment sagt, warum. Hat sich eine Leitung, ein Kontakt oder eine Elektrode bewegt, lassen sich die beiden Spannungen nicht vergleichen: den Lauf wiederholen.</translation>
    </message>
    <message>
        <source>The voltage may still drift faster than the limit.</source>
        <translation>Die Spannung driftet vielleicht noch schneller als die Grenze.</translation>
    </message>
    <message>
        <source>The voltage saved is provisional, since a voltage had not settled.</source>
        <translation>Die eingesparte Spannung ist vorläufig, da eine Spannung nicht eingeschwungen war.</translation>
    </message>
    <message>
        <source>The voltage saved needs a voltage before and a voltage after.</source>
        <translation>Die eingesparte Spannung braucht eine Spannung vorher und eine nachher.</translation>
    </message>
    <message>
        <source>The voltage still drifts faster than the limit.</source>
        <translation>Die Spannung driftet noch schneller als die Grenze.</translation>
    </message>
    <message>
        <source>The voltage {name} had not settled: its drift lies {high_mv} mV/min, the limit is {limit_mv_per_min}. Wait longer next time.</source>
        <translation>Die Spannung {name} war nicht eingeschwungen: ihre Drift liegt {high_mv} mV/min, die Grenze ist {limit_mv_per_min}. Nächstes Mal länger warten.</translation>
    </message>
    <message>
        <source>The window {name} was chosen by hand, not found by the program; say so with the result.</source>
        <translation>Der Abschnitt {name} wurde von Hand gewählt, nicht vom Programm gefunden; beim Ergebnis dazusagen.</translation>
    </message>
    <message>
        <source>The {stated_rating_w} W of the bench file are not enough here: touching electrodes would put {touching_power_w} W into it.</source>
        <translation>Die {stated_rating_w} W der Aufbau-Datei reichen hier nicht: sich berührende Elektroden brächten {touching_power_w} W hinein.</translation>
    </message>
    <message>
        <source>There is no growth phase to fit.</source>
        <translation>Es gibt keine Wachstumsphase anzupassen.</translation>
    </message>
    <message>
        <source>These are reminders, not a risk assessment. Local codes, the rules of your school or laboratory, and qualified people decide.</source>
        <translation>Dies sind Erinnerungen, keine Gefährdungsbeurteilung. Es entscheiden die Vorschriften vor Ort, die Regeln der Schule oder des Labors und fachkundige Personen.</translation>
    </message>
    <message>
        <source>Too high for splitting water: the cell is dry, a clip is loose, or solution is missing.</source>
        <translation>Zu hoch für Wasserspaltung: die Zelle ist trocken, eine Klemme ist lose, oder Lösung fehlt.</translation>
    </message>
    <message>
        <source>Waiting for the first reading.</source>
        <translation>Wartet auf den ersten Messwert.</translation>
    </message>
    <message>
        <source>What arrives from {port} is no text. {speed_hint}</source>
        <translation>Was von {port} kommt, ist kein Text. {speed_hint}</translation>
    </message>
    <message>
        <source>What the cell does now is not known: these are its last readings.</source>
        <translation>Was die Zelle jetzt tut, ist nicht bekannt: das sind ihre letzten Messwerte.</translation>
    </message>
    <message>
        <source>While the cell is open (dry, or a lead off), the whole stack of {stack_v} V lies on the meter&apos;s input, whose range is {range_v} V: that reads as overload and may harm a board&apos;s input. Choose a larger range, or put a divider before it, for example {ratio}:1, and add scale={ratio} to the address.</source>
        <translation>Solange die Zelle offen ist (trocken, oder eine Leitung ab), liegt der ganze Stapel mit {stack_v} V am Eingang des Messgeräts, dessen Messbereich {range_v} V ist: das wird als Überlauf gelesen und kann den Eingang einer Platine beschädigen. Einen größeren Bereich wählen, oder einen Teiler davorschalten, zum Beispiel {ratio}:1, und scale={ratio} in die Adresse schreiben.</translation>
    </message>
    <message>
        <source>You may not use {port} yet. Run: sudo usermod -aG dialout $USER (on Arch: uucp), then log out and in.</source>
        <translation>{port} ist für dieses Benutzerkonto noch nicht freigegeben. Ausführen: sudo usermod -aG dialout $USER (unter Arch: uucp), dann ab- und wieder anmelden.</translation>
    </message>
    <message>
        <source>a .parquet file needs pyarrow; install it with: python3 -m pip install pyarrow</source>
        <translation>eine .parquet-Datei braucht pyarrow; installieren mit: python3 -m pip install pyarrow</translation>
    </message>
    <message>
        <source>a .{kind} file needs the window part of the program, which is not installed completely here ({error}); start python3 run.py once, which installs it, or export to .svg, .html or .csv</source>
        <translation>eine .{kind}-Datei braucht den Fensterteil des Programms, der hier nicht vollständig installiert ist ({error}); einmal python3 run.py starten, das installiert ihn, oder als .svg, .html oder .csv exportieren</translation>
    </message>
    <message>
        <source>a Tafel line needs a current above zero</source>
        <translation>eine Tafel-Gerade braucht einen Strom über null</translation>
    </message>
    <message>
        <source>a battery has 0.8 to 15 V</source>
        <translation>eine Batterie hat 0,8 bis 15 V</translation>
    </message>
    <message>
        <source>a block of {n} samples does not fit its frame of {payload} bytes</source>
        <translation>ein Block von {n} Messwerten passt nicht zu seinem Rahmen von {payload} Bytes</translation>
    </message>
    <message>
        <source>a board that prints lines</source>
        <translation>eine Platine, die Zeilen schreibt</translation>
    </message>
    <message>
        <source>a board that sends numbered, checked packets of samples (COBS)</source>
        <translation>eine Platine, die nummerierte, geprüfte Pakete von Messwerten sendet (COBS)</translation>
    </message>
    <message>
        <source>a cell at {before_v} V before and {after_v} V after the catalyst</source>
        <translation>eine Zelle mit {before_v} V vor und {after_v} V nach dem Katalysator</translation>
    </message>
    <message>
        <source>a cell of this kind takes 0.0001 to 500 mA/cm2</source>
        <translation>eine solche Zelle nimmt 0,0001 bis 500 mA/cm2 auf</translation>
    </message>
    <message>
        <source>a cell of this kind takes no more; check the current and the area</source>
        <translation>eine solche Zelle nimmt nicht mehr auf; Strom und Fläche prüfen</translation>
    </message>
    <message>
        <source>a charge needs two points in time</source>
        <translation>eine Ladung braucht zwei Zeitpunkte</translation>
    </message>
    <message>
        <source>a comparison of both ways needs more than {parameters}, some up and some down</source>
        <translation>ein Vergleich von Hin- und Rückweg braucht mehr als {parameters}, einige aufwärts und einige abwärts</translation>
    </message>
    <message>
        <source>a continuity test</source>
        <translation>Durchgangsprüfung</translation>
    </message>
    <message>
        <source>a date or time</source>
        <translation>ein Datum oder eine Uhrzeit</translation>
    </message>
    <message>
        <source>a digit of the display has a shape that no digit has</source>
        <translation>eine Ziffer der Anzeige hat eine Form, die keine Ziffer hat</translation>
    </message>
    <message>
        <source>a diode test</source>
        <translation>Diodentest</translation>
    </message>
    <message>
        <source>a duty cycle</source>
        <translation>Tastverhältnis</translation>
    </message>
    <message>
        <source>a fresh AA cell</source>
        <translation>eine frische AA-Zelle</translation>
    </message>
    <message>
        <source>a fresh alkaline nine-volt block</source>
        <translation>ein frischer 9-V-Alkaliblock</translation>
    </message>
    <message>
        <source>a gain is the change shown over the true change, 0.5 to 2</source>
        <translation>der Faktor ist angezeigte durch wahre Änderung, 0,5 bis 2</translation>
    </message>
    <message>
        <source>a group of it is missing</source>
        <translation>eine Gruppe davon fehlt</translation>
    </message>
    <message>
        <source>a handheld meter of 22000 counts that sends digits</source>
        <translation>ein Handmultimeter mit Anzeige bis 22000, das Ziffern sendet</translation>
    </message>
    <message>
        <source>a handheld meter of 4000 counts that sends digits (column=b: other order of signs)</source>
        <translation>ein Handmultimeter mit Anzeige bis 4000, das Ziffern sendet (column=b: andere Ordnung der Zeichen)</translation>
    </message>
    <message>
        <source>a handheld meter that sends digits and signs</source>
        <translation>ein Handmultimeter, das Ziffern und Zeichen sendet</translation>
    </message>
    <message>
        <source>a handheld meter that sends its segments</source>
        <translation>ein Handmultimeter, das seine Segmente sendet</translation>
    </message>
    <message>
        <source>a handheld meter that sends one or two displays (column=2: the second)</source>
        <translation>ein Handmultimeter, das eine oder zwei Anzeigen sendet (column=2: die zweite)</translation>
    </message>
    <message>
        <source>a headspace has 0 mL to 100 L</source>
        <translation>ein Gasraum hat 0 mL bis 100 L</translation>
    </message>
    <message>
        <source>a line of more than {line_limit} bytes</source>
        <translation>eine Zeile mit mehr als {line_limit} Bytes</translation>
    </message>
    <message>
        <source>a line without {name}, which is recorded (it has {names}). If another one is meant, name it in the address: column={names_2}</source>
        <translation>eine Zeile ohne {name}, das aufgezeichnet wird (sie hat {names}). Ist etwas anderes gemeint, das in der Adresse angeben: column={names_2}</translation>
    </message>
    <message>
        <source>a meter of {input_ohm} Mohm</source>
        <translation>ein Messgerät mit {input_ohm} MOhm</translation>
    </message>
    <message>
        <source>a meter shows 0 V within 0.5 V</source>
        <translation>ein Messgerät zeigt 0 V auf 0,5 V genau</translation>
    </message>
    <message>
        <source>a meter that answers queries (IEEE 488.2 / SCPI)</source>
        <translation>ein Messgerät, das auf Abfragen antwortet (IEEE 488.2 / SCPI)</translation>
    </message>
    <message>
        <source>a moment&apos;s time must be zero or more seconds since the start, not {time_s}</source>
        <translation>die Zeit eines Moments muss null oder mehr Sekunden seit dem Beginn sein, nicht {time_s}</translation>
    </message>
    <message>
        <source>a pH lies between -1 and 15</source>
        <translation>ein pH-Wert liegt zwischen -1 und 15</translation>
    </message>
    <message>
        <source>a parameter is not determined by the data</source>
        <translation>ein Parameter ist durch die Daten nicht bestimmt</translation>
    </message>
    <message>
        <source>a part of it has another form than in a recording</source>
        <translation>ein Teil davon hat eine andere Form als in einer Aufzeichnung</translation>
    </message>
    <message>
        <source>a point that is no number</source>
        <translation>ein Punkt, der keine Zahl ist</translation>
    </message>
    <message>
        <source>a recording played again</source>
        <translation>eine Aufzeichnung, erneut abgespielt</translation>
    </message>
    <message>
        <source>a resistor tolerance of {tolerance_percent} %</source>
        <translation>eine Toleranz des Vorwiderstands von {tolerance_percent} %</translation>
    </message>
    <message>
        <source>a run needs at least one source: add --source ADDRESS</source>
        <translation>eine Messung braucht mindestens eine Quelle: --source ADRESSE angeben</translation>
    </message>
    <message>
        <source>a second copy can be begun only while a run goes on</source>
        <translation>eine zweite Kopie lässt sich nur beginnen, während eine Messung läuft</translation>
    </message>
    <message>
        <source>a stack as strong after as before ({share} less would look like {shown} saved)</source>
        <translation>ein Stapel, der nachher so stark ist wie vorher ({share} weniger sähe aus wie {shown} Einsparung)</translation>
    </message>
    <message>
        <source>a stack has 1 to 60 cells</source>
        <translation>ein Batteriestapel hat 1 bis 60 Zellen</translation>
    </message>
    <message>
        <source>a stack must split water and stay within extra-low voltage (above 60 V local rules decide)</source>
        <translation>ein Batteriestapel muss Wasser spalten und Kleinspannung bleiben (über 60 V entscheiden die Regeln vor Ort)</translation>
    </message>
    <message>
        <source>a stack of three nine-volt blocks</source>
        <translation>ein Stapel aus drei 9-V-Blöcken</translation>
    </message>
    <message>
        <source>a stack of {min} V cannot split water (needs over {reversible_v} V)</source>
        <translation>ein Batteriestapel von {min} V kann kein Wasser spalten (nötig sind über {reversible_v} V)</translation>
    </message>
    <message>
        <source>a stack of {stack_v} V as declared, within {declared_stack_limit} %</source>
        <translation>ein Batteriestapel von {stack_v} V wie angegeben, auf {declared_stack_limit} % genau</translation>
    </message>
    <message>
        <source>a stack that drives a cell has 0 to 1000 ohm inside</source>
        <translation>ein Batteriestapel, der eine Zelle treibt, hat innen 0 bis 1000 Ohm</translation>
    </message>
    <message>
        <source>a stack voltage measured within {unknown_meter_limit} %</source>
        <translation>eine Stapelspannung, auf {unknown_meter_limit} % genau gemessen</translation>
    </message>
    <message>
        <source>a supply.stack_voltage_V that agrees with the open cell</source>
        <translation>eine supply.stack_voltage_V, die zur offenen Zelle passt</translation>
    </message>
    <message>
        <source>a table without a name</source>
        <translation>eine Tabelle ohne Namen</translation>
    </message>
    <message>
        <source>a text in it is not UTF-8</source>
        <translation>ein Text darin ist nicht UTF-8</translation>
    </message>
    <message>
        <source>a tolerance is a share of the value</source>
        <translation>eine Toleranz ist ein Anteil des Werts</translation>
    </message>
    <message>
        <source>a transistor&apos;s gain</source>
        <translation>Transistorverstärkung</translation>
    </message>
    <message>
        <source>a value in it</source>
        <translation>ein Wert darin</translation>
    </message>
    <message>
        <source>a very large number</source>
        <translation>eine sehr große Zahl</translation>
    </message>
    <message>
        <source>a vessel holds 1 mL to 20 L</source>
        <translation>ein Gefäß fasst 1 mL bis 20 L</translation>
    </message>
    <message>
        <source>accepted is {low} to {high}</source>
        <translation>zulässig ist {low} bis {high}</translation>
    </message>
    <message>
        <source>accuracy in counts</source>
        <translation>Genauigkeit in Digits</translation>
    </message>
    <message>
        <source>accuracy in percent of reading</source>
        <translation>Genauigkeit in Prozent des Messwerts</translation>
    </message>
    <message>
        <source>activity of water</source>
        <translation>Aktivität des Wassers</translation>
    </message>
    <message>
        <source>all of it</source>
        <translation>alles davon</translation>
    </message>
    <message>
        <source>all sources of a run must have the same speed; give each the same speed=</source>
        <translation>alle Quellen einer Messung müssen gleich schnell laufen; jeder dasselbe speed= geben</translation>
    </message>
    <message>
        <source>all values of each group are equal</source>
        <translation>alle Werte jeder Gruppe sind gleich</translation>
    </message>
    <message>
        <source>allowance of the chart</source>
        <translation>Freibetrag der Regelkarte</translation>
    </message>
    <message>
        <source>amount of gas in mol</source>
        <translation>Stoffmenge des Gases in mol</translation>
    </message>
    <message>
        <source>an activity above 1 would need supersaturation</source>
        <translation>eine Aktivität über 1 bräuchte Übersättigung</translation>
    </message>
    <message>
        <source>an air pressure of {assumed_pressure_kpa} kPa</source>
        <translation>ein Luftdruck von {assumed_pressure_kpa} kPa</translation>
    </message>
    <message>
        <source>an air pressure of {pressure_kpa} kPa</source>
        <translation>ein Luftdruck von {pressure_kpa} kPa</translation>
    </message>
    <message>
        <source>an electrolysing cell has a voltage above zero</source>
        <translation>eine elektrolysierende Zelle hat eine Spannung über null</translation>
    </message>
    <message>
        <source>an entry of the shelf cannot be {state}</source>
        <translation>ein Eintrag der Sammlung kann nicht {state} sein</translation>
    </message>
    <message>
        <source>an entry of the shelf has no usable {key}</source>
        <translation>ein Eintrag der Sammlung hat kein brauchbares {key}</translation>
    </message>
    <message>
        <source>an entry of the shelf has other fields</source>
        <translation>ein Eintrag der Sammlung hat andere Felder</translation>
    </message>
    <message>
        <source>an entry {name} cannot be read</source>
        <translation>ein Eintrag {name} ist nicht lesbar</translation>
    </message>
    <message>
        <source>an entry {name} holds {value} as {name_2}</source>
        <translation>ein Eintrag {name} enthält {value} als {name_2}</translation>
    </message>
    <message>
        <source>an entry {name} is no JSON object</source>
        <translation>ein Eintrag {name} ist kein JSON-Objekt</translation>
    </message>
    <message>
        <source>an instrument without points</source>
        <translation>ein Gerät ohne Punkte</translation>
    </message>
    <message>
        <source>an internal resistance of 0 to {ohm} Ω</source>
        <translation>ein Innenwiderstand von 0 bis {ohm} Ω</translation>
    </message>
    <message>
        <source>an ohmic resistance of 0 to {ohm} Ω</source>
        <translation>ein ohmscher Widerstand von 0 bis {ohm} Ω</translation>
    </message>
    <message>
        <source>an ohmic resistance of {ohm} Ω from spacing and area</source>
        <translation>ein ohmscher Widerstand von {ohm} Ω aus Abstand und Fläche</translation>
    </message>
    <message>
        <source>an open cell cannot be told from a poor contact</source>
        <translation>eine offene Zelle lässt sich von schlechtem Kontakt nicht unterscheiden</translation>
    </message>
    <message>
        <source>an open cell has 30 to 200 kPa</source>
        <translation>eine offene Zelle hat 30 bis 200 kPa</translation>
    </message>
    <message>
        <source>an unfinished run of that name lies beside it; first: galvanote recover &apos;{target}&apos;</source>
        <translation>eine nicht abgeschlossene Messung dieses Namens liegt daneben; zuerst: galvanote recover &apos;{target}&apos;</translation>
    </message>
    <message>
        <source>an unknown resistor</source>
        <translation>einem unbekannten Widerstand</translation>
    </message>
    <message>
        <source>and cell_voltage_V make a stack of {declared_v} V</source>
        <translation>und cell_voltage_V ergeben einen Batteriestapel von {declared_v} V</translation>
    </message>
    <message>
        <source>anode area in cm2</source>
        <translation>Anodenfläche in cm2</translation>
    </message>
    <message>
        <source>anode areas</source>
        <translation>die Anodenflächen</translation>
    </message>
    <message>
        <source>another file has that name now</source>
        <translation>inzwischen hat eine andere Datei diesen Namen</translation>
    </message>
    <message>
        <source>another process begins a journal</source>
        <translation>ein anderes Programm beginnt gerade ein Journal</translation>
    </message>
    <message>
        <source>another recording has taken the place of the file</source>
        <translation>eine andere Aufzeichnung ist an die Stelle der Datei getreten</translation>
    </message>
    <message>
        <source>another run of that name has just begun: {out}</source>
        <translation>eine andere Messung dieses Namens hat gerade begonnen: {out}</translation>
    </message>
    <message>
        <source>area in cm2</source>
        <translation>Fläche in cm2</translation>
    </message>
    <message>
        <source>arrival, less the time on the line and half a conversion</source>
        <translation>Ankunft, abzüglich der Zeit auf der Leitung und der halben Wandlung</translation>
    </message>
    <message>
        <source>as the label of its moment</source>
        <translation>als Text seines Moments</translation>
    </message>
    <message>
        <source>at most {most_unusable_share} % may be left out; lock the range, check the leads</source>
        <translation>höchstens {most_unusable_share} % dürfen wegfallen; den Messbereich festhalten, die Leitungen prüfen</translation>
    </message>
    <message>
        <source>at {temperature_c} degC the vapour of water alone has {vapour_pa} Pa, so the cell boils</source>
        <translation>bei {temperature_c} degC hat allein der Wasserdampf {vapour_pa} Pa, die Zelle siedet also</translation>
    </message>
    <message>
        <source>bands of the resistor</source>
        <translation>Ringe des Widerstands</translation>
    </message>
    <message>
        <source>bar or atmosphere</source>
        <translation>bar oder Atmosphäre</translation>
    </message>
    <message>
        <source>bench file</source>
        <translation>Aufbau-Datei</translation>
    </message>
    <message>
        <source>beta lies outside {smallest_beta} to {largest_beta}</source>
        <translation>beta liegt außerhalb von {smallest_beta} bis {largest_beta}</translation>
    </message>
    <message>
        <source>between {ends} and {ends_2}</source>
        <translation>zwischen {ends} und {ends_2}</translation>
    </message>
    <message>
        <source>blank runs</source>
        <translation>Blindversuche</translation>
    </message>
    <message>
        <source>board-clock, lower envelope</source>
        <translation>Uhr der Platine, untere Hüllkurve</translation>
    </message>
    <message>
        <source>board-clock, provisional</source>
        <translation>Uhr der Platine, vorläufig</translation>
    </message>
    <message>
        <source>buffer without salt</source>
        <translation>Puffer ohne Salz</translation>
    </message>
    <message>
        <source>cancelled; nothing was written</source>
        <translation>abgebrochen; nichts wurde geschrieben</translation>
    </message>
    <message>
        <source>cannot replay {path}: it is an HDF5 file, but no recording (it has no /run/start_time); give a file that galvanote recorded or imported</source>
        <translation>{path} lässt sich nicht abspielen: eine HDF5-Datei, aber keine Aufzeichnung (kein /run/start_time darin); eine Datei nehmen, die galvanote aufgezeichnet oder importiert hat</translation>
    </message>
    <message>
        <source>cannot replay {path}: it is no whole recording ({error}); see galvanote check {path}</source>
        <translation>{path} lässt sich nicht abspielen: keine vollständige Aufzeichnung ({error}); siehe galvanote check {path}</translation>
    </message>
    <message>
        <source>cannot replay {path}: it is not an HDF5 file, or not a whole one; a run that was cut off is finished with galvanote recover</source>
        <translation>{path} lässt sich nicht abspielen: keine HDF5-Datei, oder keine vollständige; eine unterbrochene Messung schließt galvanote recover ab</translation>
    </message>
    <message>
        <source>cannot replay {path}: it may not be read; check its permissions</source>
        <translation>{path} lässt sich nicht abspielen: nicht lesbar; die Zugriffsrechte prüfen</translation>
    </message>
    <message>
        <source>cannot replay {path}: the recording has no channel</source>
        <translation>{path} lässt sich nicht abspielen: die Aufzeichnung hat keinen Kanal</translation>
    </message>
    <message>
        <source>cannot replay {path}: there is no such file; check the name</source>
        <translation>{path} lässt sich nicht abspielen: diese Datei gibt es nicht; den Namen prüfen</translation>
    </message>
    <message>
        <source>capacity in mAh</source>
        <translation>Kapazität in mAh</translation>
    </message>
    <message>
        <source>cell voltage after in V</source>
        <translation>Zellspannung nachher in V</translation>
    </message>
    <message>
        <source>cell voltage before in V</source>
        <translation>Zellspannung vorher in V</translation>
    </message>
    <message>
        <source>cell voltage in V</source>
        <translation>Zellspannung in V</translation>
    </message>
    <message>
        <source>cells in the stack</source>
        <translation>Zellen im Stapel</translation>
    </message>
    <message>
        <source>change of the current between the plateaus in percent</source>
        <translation>Änderung des Stroms zwischen den Plateaus in Prozent</translation>
    </message>
    <message>
        <source>change the resistor between the points</source>
        <translation>zwischen den Punkten den Widerstand wechseln</translation>
    </message>
    <message>
        <source>charge in C</source>
        <translation>Ladung in C</translation>
    </message>
    <message>
        <source>check both units: milligram and millilitre</source>
        <translation>beide Einheiten prüfen: Milligramm und Milliliter</translation>
    </message>
    <message>
        <source>check both units; up to {greatest_density_ma_cm2} mA/cm2 is expected</source>
        <translation>beide Einheiten prüfen; bis {greatest_density_ma_cm2} mA/cm2 sind zu erwarten</translation>
    </message>
    <message>
        <source>check the clock</source>
        <translation>die Uhr prüfen</translation>
    </message>
    <message>
        <source>check the stack voltage and the range of the meter</source>
        <translation>die Stapelspannung und den Messbereich prüfen</translation>
    </message>
    <message>
        <source>check whether the two readings are swapped, or let the stack rest and read again</source>
        <translation>prüfen, ob die beiden Messwerte vertauscht sind, oder den Stapel ruhen lassen und neu ablesen</translation>
    </message>
    <message>
        <source>chosen window in s</source>
        <translation>gewählter Abschnitt in s</translation>
    </message>
    <message>
        <source>colour of a band</source>
        <translation>Farbe eines Rings</translation>
    </message>
    <message>
        <source>compare plateaus within {greatest_current_change} %, with the same resistor and stack</source>
        <translation>Plateaus mit höchstens {greatest_current_change} % Unterschied vergleichen, mit demselben Widerstand und Stapel</translation>
    </message>
    <message>
        <source>compare plateaus within {greatest_temperature_difference_k} K</source>
        <translation>Plateaus mit höchstens {greatest_temperature_difference_k} K Unterschied vergleichen</translation>
    </message>
    <message>
        <source>conductivity in S/m</source>
        <translation>Leitfähigkeit in S/m</translation>
    </message>
    <message>
        <source>contradicts resistor_ohm</source>
        <translation>widerspricht resistor_ohm</translation>
    </message>
    <message>
        <source>covariance matrix</source>
        <translation>Kovarianzmatrix</translation>
    </message>
    <message>
        <source>coverage probability</source>
        <translation>Überdeckungswahrscheinlichkeit</translation>
    </message>
    <message>
        <source>current after in A</source>
        <translation>Strom nachher in A</translation>
    </message>
    <message>
        <source>current before in A</source>
        <translation>Strom vorher in A</translation>
    </message>
    <message>
        <source>current correction</source>
        <translation>Stromkorrektur</translation>
    </message>
    <message>
        <source>current density in mA/cm2</source>
        <translation>Stromdichte in mA/cm2</translation>
    </message>
    <message>
        <source>current in A</source>
        <translation>Strom in A</translation>
    </message>
    <message>
        <source>currents of the Tafel line</source>
        <translation>Ströme der Tafel-Geraden</translation>
    </message>
    <message>
        <source>degrees of freedom</source>
        <translation>Freiheitsgrade</translation>
    </message>
    <message>
        <source>degrees of freedom of {name}</source>
        <translation>Freiheitsgrade von {name}</translation>
    </message>
    <message>
        <source>density of water in kg/m3</source>
        <translation>Dichte des Wassers in kg/m3</translation>
    </message>
    <message>
        <source>did you mean {near}?</source>
        <translation>ist {near} gemeint?</translation>
    </message>
    <message>
        <source>digit band</source>
        <translation>Ziffernring</translation>
    </message>
    <message>
        <source>digit bands</source>
        <translation>Ziffernringe</translation>
    </message>
    <message>
        <source>dry, {temperature_c} degC, {pressure_kpa} kPa</source>
        <translation>trocken, {temperature_c} degC, {pressure_kpa} kPa</translation>
    </message>
    <message>
        <source>each current needs its voltage</source>
        <translation>jeder Strom braucht seine Spannung</translation>
    </message>
    <message>
        <source>electrode spacing in mm</source>
        <translation>Elektrodenabstand in mm</translation>
    </message>
    <message>
        <source>electrodes in fresh buffer</source>
        <translation>Elektroden in frischem Puffer</translation>
    </message>
    <message>
        <source>electrodes lifted out</source>
        <translation>Elektroden herausgehoben</translation>
    </message>
    <message>
        <source>electrodes of 0.005 to 100 cm2 are expected</source>
        <translation>Elektroden von 0,005 bis 100 cm2 sind zu erwarten</translation>
    </message>
    <message>
        <source>electrodes stand 0.1 to 500 mm apart</source>
        <translation>Elektroden stehen 0,1 bis 500 mm auseinander</translation>
    </message>
    <message>
        <source>fall of the voltage in mV</source>
        <translation>Abfall der Spannung in mV</translation>
    </message>
    <message>
        <source>fault {value}: the value must be 0 or more</source>
        <translation>Störung {value}: der Wert muss 0 oder mehr sein</translation>
    </message>
    <message>
        <source>fault {value}: {value_2} is no number; write for example {name}={name_2}</source>
        <translation>Fehler {value}: {value_2} ist keine Zahl; zum Beispiel {name}={name_2} schreiben</translation>
    </message>
    <message>
        <source>feed {address}</source>
        <translation>Zufuhr {address}</translation>
    </message>
    <message>
        <source>fits {found}</source>
        <translation>passt auf {found}</translation>
    </message>
    <message>
        <source>frequency in Hz</source>
        <translation>Frequenz in Hz</translation>
    </message>
    <message>
        <source>fresh buffer without salt</source>
        <translation>frischer Puffer ohne Salz</translation>
    </message>
    <message>
        <source>from stack voltage, cell voltage and resistor</source>
        <translation>aus Stapelspannung, Zellspannung und Vorwiderstand</translation>
    </message>
    <message>
        <source>from the voltage across the shunt</source>
        <translation>aus der Spannung am Shunt</translation>
    </message>
    <message>
        <source>give --current, --current-density, or [supply] resistor_ohm in a bench file</source>
        <translation>--current, --current-density oder in der Aufbau-Datei [supply] resistor_ohm angeben</translation>
    </message>
    <message>
        <source>give 0.01 ohm to 100 Gohm</source>
        <translation>0,01 Ohm bis 100 GOhm angeben</translation>
    </message>
    <message>
        <source>give [cell] anode_area_cm2 in a bench file, or --current instead</source>
        <translation>in der Aufbau-Datei [cell] anode_area_cm2 angeben, oder stattdessen --current</translation>
    </message>
    <message>
        <source>give a begin and a later end</source>
        <translation>einen Anfang und ein späteres Ende angeben</translation>
    </message>
    <message>
        <source>give a number</source>
        <translation>eine Zahl angeben</translation>
    </message>
    <message>
        <source>give a number above zero</source>
        <translation>eine Zahl über null angeben</translation>
    </message>
    <message>
        <source>give a number above zero, or infinity</source>
        <translation>eine Zahl über null angeben, oder unendlich</translation>
    </message>
    <message>
        <source>give a number {wanted}</source>
        <translation>eine Zahl angeben, {wanted}</translation>
    </message>
    <message>
        <source>give a positive semidefinite one</source>
        <translation>eine positiv semidefinite angeben</translation>
    </message>
    <message>
        <source>give a pressure above {vapour_pa} Pa or a lower temperature</source>
        <translation>einen Druck über {vapour_pa} Pa oder eine niedrigere Temperatur angeben</translation>
    </message>
    <message>
        <source>give a vector of {fewest_samples} or more</source>
        <translation>einen Vektor von {fewest_samples} oder mehr angeben</translation>
    </message>
    <message>
        <source>give at least two samples</source>
        <translation>mindestens zwei Messwerte angeben</translation>
    </message>
    <message>
        <source>give both, or neither</source>
        <translation>beide angeben, oder keines</translation>
    </message>
    <message>
        <source>give each sample a later time</source>
        <translation>jedem Messwert eine spätere Zeit geben</translation>
    </message>
    <message>
        <source>give equal lengths</source>
        <translation>gleiche Längen angeben</translation>
    </message>
    <message>
        <source>give for example 0.95</source>
        <translation>zum Beispiel 0,95 angeben</translation>
    </message>
    <message>
        <source>give magnitudes where the leads are reversed</source>
        <translation>bei vertauschten Leitungen Beträge angeben</translation>
    </message>
    <message>
        <source>give more points, further apart</source>
        <translation>mehr Punkte angeben, weiter auseinander</translation>
    </message>
    <message>
        <source>give numbers</source>
        <translation>Zahlen angeben</translation>
    </message>
    <message>
        <source>give one of {known}</source>
        <translation>eines von {known} angeben</translation>
    </message>
    <message>
        <source>give one row and one column for each input</source>
        <translation>eine Zeile und eine Spalte für jede Eingangsgröße angeben</translation>
    </message>
    <message>
        <source>give points that lie nearer to the model, or smaller uncertainties</source>
        <translation>Punkte angeben, die näher am Modell liegen, oder kleinere Unsicherheiten</translation>
    </message>
    <message>
        <source>give the time of every sample</source>
        <translation>die Zeit jedes Messwerts angeben</translation>
    </message>
    <message>
        <source>give the times of a monotonic clock, oldest first</source>
        <translation>die Zeiten einer stetigen Uhr angeben, die ältesten zuerst</translation>
    </message>
    <message>
        <source>give the values as measured</source>
        <translation>die Werte angeben, wie gemessen</translation>
    </message>
    <message>
        <source>give three or more</source>
        <translation>drei oder mehr angeben</translation>
    </message>
    <message>
        <source>give two runs at least, better three</source>
        <translation>mindestens zwei Messungen angeben, besser drei</translation>
    </message>
    <message>
        <source>give two vectors of one length</source>
        <translation>zwei Vektoren gleicher Länge angeben</translation>
    </message>
    <message>
        <source>give vectors of one length</source>
        <translation>Vektoren gleicher Länge angeben</translation>
    </message>
    <message>
        <source>give {fewest_points}</source>
        <translation>{fewest_points} angeben</translation>
    </message>
    <message>
        <source>give {fewest} or more, without overload</source>
        <translation>{fewest} oder mehr angeben, ohne Überlauf</translation>
    </message>
    <message>
        <source>give {least_splitting_v} to {extra_low_voltage_v} V (above, local rules decide)</source>
        <translation>{least_splitting_v} bis {extra_low_voltage_v} V angeben (darüber entscheiden die Regeln vor Ort)</translation>
    </message>
    <message>
        <source>give {low} to {high}</source>
        <translation>{low} bis {high} angeben</translation>
    </message>
    <message>
        <source>give {low} to {high} {unit}</source>
        <translation>{low} bis {high} {unit} angeben</translation>
    </message>
    <message>
        <source>give {missing} {where}</source>
        <translation>{missing} angeben {where}</translation>
    </message>
    <message>
        <source>greatest current in A</source>
        <translation>größter Strom in A</translation>
    </message>
    <message>
        <source>grey means 0.05 % in one edition of the standard and 0.01 % in another</source>
        <translation>Grau bedeutet in einer Ausgabe der Norm 0,05 % und in einer anderen 0,01 %</translation>
    </message>
    <message>
        <source>grow for {lasts_s} s or longer</source>
        <translation>{lasts_s} s oder länger wachsen lassen</translation>
    </message>
    <message>
        <source>half-width of the limits</source>
        <translation>Halbbreite der Grenzen</translation>
    </message>
    <message>
        <source>has no kind</source>
        <translation>hat keine Art</translation>
    </message>
    <message>
        <source>has signs between thousands; leave them out, for example 1234.5 or 1234,5</source>
        <translation>hat Zeichen zwischen den Tausendern; sie weglassen, zum Beispiel 1234.5 oder 1234,5</translation>
    </message>
    <message>
        <source>headspace in mL</source>
        <translation>Gasraum in mL</translation>
    </message>
    <message>
        <source>held by the supply, as stated</source>
        <translation>vom Netzgerät gehalten, wie angegeben</translation>
    </message>
    <message>
        <source>how digits are sent</source>
        <translation>wie Ziffern gesendet werden</translation>
    </message>
    <message>
        <source>if so, give {zero_celsius_k} degC; accepted is 0 to 100</source>
        <translation>wenn ja, {zero_celsius_k} degC angeben; zulässig ist 0 bis 100</translation>
    </message>
    <message>
        <source>in channel {name} {fault}</source>
        <translation>in Kanal {name} {fault}</translation>
    </message>
    <message>
        <source>in the bench file</source>
        <translation>in der Aufbau-Datei</translation>
    </message>
    <message>
        <source>input resistance in ohm</source>
        <translation>Eingangswiderstand in Ohm</translation>
    </message>
    <message>
        <source>input {input}</source>
        <translation>Eingang {input}</translation>
    </message>
    <message>
        <source>input {missing}</source>
        <translation>Eingang {missing}</translation>
    </message>
    <message>
        <source>internal resistance in ohm</source>
        <translation>Innenwiderstand in Ohm</translation>
    </message>
    <message>
        <source>is no number; write for example 1.5 or 1,5</source>
        <translation>ist keine Zahl; zum Beispiel 1.5 oder 1,5 schreiben</translation>
    </message>
    <message>
        <source>is no number; write for example 1.5 or 1,5, without a unit</source>
        <translation>ist keine Zahl; zum Beispiel 1.5 oder 1,5 schreiben, ohne Einheit</translation>
    </message>
    <message>
        <source>is not known in a {where}</source>
        <translation>ist in {where} nicht bekannt</translation>
    </message>
    <message>
        <source>is not one</source>
        <translation>ist keiner</translation>
    </message>
    <message>
        <source>is one step too many</source>
        <translation>ist ein Schritt zu viel</translation>
    </message>
    <message>
        <source>is too large</source>
        <translation>ist zu groß</translation>
    </message>
    <message>
        <source>it belongs in [{home}]</source>
        <translation>es gehört in [{home}]</translation>
    </message>
    <message>
        <source>it cannot drive {current_a} A through a cell at {cell_voltage_v} V</source>
        <translation>er kann keine {current_a} A durch eine Zelle bei {cell_voltage_v} V treiben</translation>
    </message>
    <message>
        <source>it changes within one phase</source>
        <translation>es wechselt innerhalb einer Phase</translation>
    </message>
    <message>
        <source>it claims more than the memory holds</source>
        <translation>sie gibt mehr an, als in den Speicher passt</translation>
    </message>
    <message>
        <source>it does not rise</source>
        <translation>sie steigt nicht</translation>
    </message>
    <message>
        <source>it gives a negative variance</source>
        <translation>sie ergibt eine negative Varianz</translation>
    </message>
    <message>
        <source>it has no colour</source>
        <translation>er hat keine Farbe</translation>
    </message>
    <message>
        <source>it holds more than {object_limit} objects</source>
        <translation>sie enthält mehr als {object_limit} Objekte</translation>
    </message>
    <message>
        <source>it is a pipe or a device, no ordinary file</source>
        <translation>es ist eine Pipe oder ein Gerät, keine gewöhnliche Datei</translation>
    </message>
    <message>
        <source>it is a probability between 0 and 1</source>
        <translation>es ist eine Wahrscheinlichkeit zwischen 0 und 1</translation>
    </message>
    <message>
        <source>it is a share of the reading</source>
        <translation>es ist ein Anteil des Messwerts</translation>
    </message>
    <message>
        <source>it is above the open reading of {open_v} V, which would be a negative resistance</source>
        <translation>er liegt über dem offenen Messwert von {open_v} V, das wäre ein negativer Widerstand</translation>
    </message>
    <message>
        <source>it is an HDF5 file, but no recording of this program</source>
        <translation>eine HDF5-Datei, aber keine Aufzeichnung dieses Programms</translation>
    </message>
    <message>
        <source>it is empty</source>
        <translation>sie ist leer</translation>
    </message>
    <message>
        <source>it shows no voltage saved ({words})</source>
        <translation>sie zeigt keine eingesparte Spannung ({words})</translation>
    </message>
    <message>
        <source>its readings are those of {file}, to the last digit of both voltages</source>
        <translation>seine Messwerte sind die von {file}, bis zur letzten Stelle beider Spannungen</translation>
    </message>
    <message>
        <source>looks like {unit}; {reason}</source>
        <translation>sieht aus wie {unit}; {reason}</translation>
    </message>
    <message>
        <source>parts of its file are damaged ({damaged})</source>
        <translation>Teile der Datei sind beschädigt ({damaged})</translation>
    </message>
    <message>
        <source>some texts</source>
        <translation>einige Texte</translation>
    </message>
    <message>
        <source>the built-in simulated cell: cell:demo, cell:blank, cell:bench or cell:stability</source>
        <translation>die eingebaute simulierte Zelle: cell:demo, cell:blank, cell:bench oder cell:stability</translation>
    </message>
    <message>
        <source>the picture {note} is damaged: its bytes are not those that were attached (SHA-256 differs); use another copy of the recording if there is one</source>
        <translation>das Bild {note} ist beschädigt: seine Bytes sind nicht die angehängten (SHA-256 weicht ab); nehmen Sie eine andere Kopie der Aufzeichnung, falls es eine gibt</translation>
    </message>
    <message>
        <source>the times of channel {name} are in {time_unit}, those of a recording in s</source>
        <translation>die Zeiten des Kanals {name} sind in {time_unit}, die einer Aufnahme in s</translation>
    </message>
    <message>
        <source>the values of channel {name} are in {unit}, those of a recording in V</source>
        <translation>die Werte des Kanals {name} sind in {unit}, die einer Aufnahme in V</translation>
    </message>
    <message>
        <source>{file_name} is damaged or cut off: it begins as a picture and is none to its end; copy it again, then attach it</source>
        <translation>{file_name} ist beschädigt oder abgeschnitten: Die Datei beginnt als Bild und ist bis zum Ende keines; kopieren Sie sie noch einmal, und hängen Sie sie dann an</translation>
    </message>
    <message>
        <source>{file_name} is larger than the {picture_limit_bytes} MB that a picture may have; save it smaller, then attach it</source>
        <translation>{file_name} ist größer als die {picture_limit_bytes} MB, die ein Bild haben darf; speichern Sie es kleiner, und hängen Sie es dann an</translation>
    </message>
    <message>
        <source>{files} and {files_2} lie off the others (Rosner&apos;s test for two: {statistic} once the first is set aside, by chance above {critical1} in 1 % of such sets). Look for a cause; they stay in the statistics.</source>
        <translation>{files} und {files_2} weichen von den anderen ab (Rosner-Test für zwei: {statistic} ohne die erste, zufällig über {critical1} in 1 % solcher Gruppen). Nach einer Ursache suchen; sie bleiben in der Statistik.</translation>
    </message>
    <message>
        <source>{name} is stored in {count} parts, far more than a recording has</source>
        <translation>{name} ist in {count} Teilen gespeichert, weit mehr, als eine Aufzeichnung hat</translation>
    </message>
    <message>
        <source>{name}, line {error}: not TOML, {reason}; write key = value, numbers with a point, texts in &quot;quotes&quot;, tables as [supply]</source>
        <translation>{name}, Zeile {error}: kein TOML, {reason}; key = value schreiben, Zahlen mit Punkt, Texte in &quot;Anführungszeichen&quot;, Tabellen als [supply]</translation>
    </message>
    <message>
        <source>{out} could not be written ({reason}); the readings are in {origin} as before. Check free space and permissions.</source>
        <translation>{out} konnte nicht geschrieben werden ({reason}); die Messwerte stehen wie zuvor in {origin}. Freien Platz und Rechte prüfen.</translation>
    </message>
    <message>
        <source>{out} has no ending, which says what to write; name it for example {example} (known endings: {endings})</source>
        <translation>{out} hat keine Endung, die sagt, was zu schreiben ist; nennen Sie die Datei zum Beispiel {example} (bekannte Endungen: {endings})</translation>
    </message>
    <message>
        <source>{out}: no export has the ending {ending}; known: {endings}</source>
        <translation>{out}: kein Export hat die Endung {ending}; bekannt: {endings}</translation>
    </message>
    <message>
        <source>{package} names no readings of a cell voltage; import a table of it with --voltage</source>
        <translation>{package} nennt keine Messwerte einer Zellspannung; eine Tabelle daraus mit --voltage importieren</translation>
    </message>
    <message>
        <source>{path} cannot be written ({strerror}); {remedy}</source>
        <translation>{path} lässt sich nicht schreiben ({strerror}); {remedy}</translation>
    </message>
    <message>
        <source>{path} is a pipe or a device and is not replaced; choose another name</source>
        <translation>{path} ist eine Pipe oder ein Gerät und wird nicht ersetzt; einen anderen Namen wählen</translation>
    </message>
    <message>
        <source>{path} is an HDF5 file but not a recording of this program: it has no /run/start_time; choose a file that galvanote recorded or imported</source>
        <translation>{path} ist eine HDF5-Datei, aber keine Aufzeichnung dieses Programms: Es fehlt /run/start_time; eine Datei wählen, die galvanote aufgezeichnet oder importiert hat</translation>
    </message>
    <message>
        <source>{path} is no file of the size of a data package; check the name</source>
        <translation>{path} ist keine Datei von der Größe eines Datenpakets; Namen prüfen</translation>
    </message>
    <message>
        <source>{path} is no ordinary file; name a picture (PNG, JPEG, WebP)</source>
        <translation>{path} ist keine gewöhnliche Datei; ein Bild nennen (PNG, JPEG, WebP)</translation>
    </message>
    <message>
        <source>{port} stopped at {at}: it is still there but gives no data ({seen}). Either the instrument was disconnected, or another program is reading the port at the same time: close it (serial monitors, modem manager).</source>
        <translation>{port} hat um {at} aufgehört: der Anschluss ist noch da, liefert aber keine Daten ({seen}). Entweder wurde das Gerät getrennt, oder ein anderes Programm liest zugleich: es schließen (serielle Monitore, Modem-Verwaltung).</translation>
    </message>
    <message>
        <source>{values_v} runs with salt cannot tell how well the experiment repeats; make {fewest_replicates} or more.</source>
        <translation>{values_v} Messungen mit Salz können nicht sagen, wie gut sich der Versuch wiederholen lässt; {fewest_replicates} oder mehr durchführen.</translation>
    </message>
    <message>
        <source>{value}: a source of kind {kind} has no key {key}{hint} (known: {known})</source>
        <translation>{value}: eine Quelle der Art {kind} hat keinen Schlüssel {key}{hint} (bekannt: {known})</translation>
    </message>
    <message>
        <source>A temperature was not used: {explained}.</source>
        <translation>Eine Temperatur wurde nicht verwendet: {explained}.</translation>
    </message>
    <message>
        <source> Lines end in CR alone: let the board print LF too.</source>
        <translation> Die Zeilen enden nur mit CR: die Platine auch LF schreiben lassen.</translation>
    </message>
    <message>
        <source>A lead was lifted, but the readings are too far apart to read off the ohmic drop: it is gone within milliseconds, and {slowest_rate_hz} readings a second or more are needed. A set of resistors tells it too.</source>
        <translation>Eine Leitung wurde abgezogen, aber die Messwerte liegen zu weit auseinander, um den ohmschen Abfall abzulesen: er ist in Millisekunden vorbei, nötig sind {slowest_rate_hz} Messwerte pro Sekunde oder mehr. Auch ein Satz von Widerständen zeigt ihn.</translation>
    </message>
    <message>
        <source>Assumed: the cell as warm after as before, within {thermometer_uncertainty_k} K; 2 K more would look like 4 mV saved. Note the temperature at both voltages.</source>
        <translation>Angenommen: die Zelle nachher so warm wie vorher, auf {thermometer_uncertainty_k} K genau; 2 K mehr sähen aus wie 4 mV Einsparung. Die Temperatur bei beiden Spannungen notieren.</translation>
    </message>
    <message>
        <source>Assumed: {first} and {second}. Give temperature_C and pressure_kPa in the bench file.</source>
        <translation>Angenommen: {first} und {second}. In der Aufbau-Datei temperature_C und pressure_kPa angeben.</translation>
    </message>
    <message>
        <source>Assumed: {first}. Give temperature_C and pressure_kPa in the bench file.</source>
        <translation>Angenommen: {first}. In der Aufbau-Datei temperature_C und pressure_kPa angeben.</translation>
    </message>
    <message>
        <source>From about {begin_s} on the voltage fell by {total_v} mV, as after salt, but the salt is tagged at {tagged_s}. If it went in earlier, move its moment there; else the voltage before is not that of the bare electrodes.</source>
        <translation>Ab etwa {begin_s} fiel die Spannung um {total_v} mV, wie nach dem Salz, aber das Salz ist bei {tagged_s} markiert. Kam es früher hinein, den Moment dorthin verschieben; sonst ist die Spannung vorher nicht die der bloßen Elektroden.</translation>
    </message>
    <message>
        <source>Half of the readings are {middle_v} V or more, and neither a cell nor its stack goes beyond {highest_stack_v} V. Nothing is concluded from them. If the instrument sends millivolts, record with scale=0.001 in its source address.</source>
        <translation>Die Hälfte der Messwerte liegt bei {middle_v} V oder mehr, und weder eine Zelle noch ihr Batteriestapel geht über {highest_stack_v} V. Daraus wird nichts geschlossen. Sendet das Gerät Millivolt, mit scale=0.001 in seiner Adresse aufzeichnen.</translation>
    </message>
    <message>
        <source>It takes {window_s} s of readings to tell.</source>
        <translation>Für ein Urteil braucht es Messwerte über {window_s} s.</translation>
    </message>
    <message>
        <source>JSON objects</source>
        <translation>JSON-Objekte</translation>
    </message>
    <message>
        <source>Moments were changed after these findings were worked out and kept; what they say may be of other stretches. Analyse the recording again: galvanote analyse, or export it from the window.</source>
        <translation>Nach dem Ermitteln dieser Ergebnisse wurden Momente geändert; sie können sich auf andere Abschnitte beziehen. Aufzeichnung neu auswerten: galvanote analyse, oder aus dem Fenster exportieren.</translation>
    </message>
    <message>
        <source>No Faradaic efficiency from the {gas}: {explained}.</source>
        <translation>Kein Faraday-Wirkungsgrad aus {gas}: {explained}.</translation>
    </message>
    <message>
        <source>No Tafel slope was found: {explained}.</source>
        <translation>Es wurde keine Tafel-Steigung gefunden: {explained}.</translation>
    </message>
    <message>
        <source>No Tafel slope was found: {slope_mv} mV per decade would be uncertain by {doubt_mv} mV. Take resistors that spread the current over a decade or more.</source>
        <translation>Keine Tafel-Steigung gefunden: {slope_mv} mV je Dekade wären um {doubt_mv} mV unsicher. Widerstände nehmen, die den Strom über eine Dekade oder mehr verteilen.</translation>
    </message>
    <message>
        <source>No calibration is applied to {identity}: it was calibrated with another divider ({others}). Calibrate it with the scale= and offset= that it is recorded with.</source>
        <translation>Auf {identity} wird keine Kalibrierung angewendet: kalibriert wurde mit einem anderen Teiler ({others}). Mit den scale= und offset= kalibrieren, mit denen aufgezeichnet wird.</translation>
    </message>
    <message>
        <source>No model describes the growth: the best that the data determine ({name}) leaves {misfit} times the noise. Its parameters only sum up the curve; no time constant is claimed.</source>
        <translation>Kein Modell beschreibt das Wachstum: das beste, das die Daten bestimmen ({name}), lässt {misfit}-mal das Rauschen übrig. Seine Parameter fassen die Kurve nur zusammen; eine Zeitkonstante wird nicht behauptet.</translation>
    </message>
    <message>
        <source>No ohmic drop was read off: {explained}.</source>
        <translation>Kein ohmscher Abfall wurde abgelesen: {explained}.</translation>
    </message>
    <message>
        <source>No reading of {channel} from {address} for {silent_s} s, although its other channels come. Does its column, or its input, still hold numbers?</source>
        <translation>Von {channel} an {address} kommt seit {silent_s} s kein Messwert, obwohl die anderen Kanäle kommen. Stehen in der Spalte oder am Eingang noch Zahlen?</translation>
    </message>
    <message>
        <source>No readings from {address} for {silent_s} s. {refusal}</source>
        <translation>Von {address} kommen seit {silent_s} s keine Messwerte. {refusal}</translation>
    </message>
    <message>
        <source>No settled voltage {name}: {explained}.</source>
        <translation>Keine eingeschwungene Spannung {name}: {explained}.</translation>
    </message>
    <message>
        <source>Of the board on {port} readings are missing: {reason}. They stay a gap. If this goes on, check its supply and the cable, or let it print less often.</source>
        <translation>Von der Platine an {port} fehlen Messwerte: {reason}. Sie bleiben eine Lücke. Geht das so weiter, ihre Stromversorgung und das Kabel prüfen, oder sie seltener schreiben lassen.</translation>
    </message>
    <message>
        <source>Runs and blanks were not compared: {explained}.</source>
        <translation>Messungen und Blindversuche wurden nicht verglichen: {explained}.</translation>
    </message>
    <message>
        <source>Salt was added again: the voltage after is that up to there.</source>
        <translation>Es kam wieder Salz hinein: die Spannung nachher ist die bis dorthin.</translation>
    </message>
    <message>
        <source>Saving met a fault of the program: {error}. The journal of the run is kept.</source>
        <translation>Das Speichern traf auf einen Fehler des Programms: {error}. Das Journal der Messung bleibt.</translation>
    </message>
    <message>
        <source>Simulated cell</source>
        <translation>Simulierte Zelle</translation>
    </message>
    <message>
        <source>The bench file corrects the meter (meter.zero_V, meter.gain); the calibration that is kept for it is therefore not applied.</source>
        <translation>Die Aufbau-Datei korrigiert das Messgerät (meter.zero_V, meter.gain); die dafür aufbewahrte Kalibrierung wird deshalb nicht angewendet.</translation>
    </message>
    <message>
        <source>The board samples {columns} inputs: {inputs}.</source>
        <translation>Die Platine misst {columns} Eingänge: {inputs}.</translation>
    </message>
    <message>
        <source>The cell electrolysed for {lasted_s} s before the buffer was tagged: taken for a trial. If fresh buffer came in at that moment, call it &apos;Solution swapped&apos;.</source>
        <translation>Die Zelle elektrolysierte {lasted_s} s lang, bevor der Puffer markiert wurde: das gilt als Probe. Kam in diesem Moment frischer Puffer hinein, den Moment „Lösung gewechselt“ nennen.</translation>
    </message>
    <message>
        <source>The cell never electrolysed: {instead}.</source>
        <translation>Die Zelle hat nie elektrolysiert: {instead}.</translation>
    </message>
    <message>
        <source>The charge was not found: the cell stood above the stack of the bench file, which cannot drive it then. Check supply.stack_voltage_V and the range of the meter.</source>
        <translation>Die Ladung wurde nicht gefunden: die Zelle lag über dem Batteriestapel der Aufbau-Datei, der sie dann nicht treiben kann. supply.stack_voltage_V und den Messbereich prüfen.</translation>
    </message>
    <message>
        <source>The charge was not found: {explained}.</source>
        <translation>Die Ladung wurde nicht gefunden: {explained}.</translation>
    </message>
    <message>
        <source>The connection to {port} ended at {at} ({seen}). Everything up to then is kept. Start the program at the other end again.</source>
        <translation>Die Verbindung zu {port} endete um {at} ({seen}). Alles bis dahin ist behalten. Das Programm am anderen Ende wieder starten.</translation>
    </message>
    <message>
        <source>The current changed by {percent} % between the two voltages, so their difference is not what the catalyst saved; up to {most_percent} % can be corrected for. Take one resistor for both, and a stack of more volts.</source>
        <translation>Der Strom änderte sich um {percent} % zwischen den beiden Spannungen, ihr Unterschied ist also nicht, was der Katalysator einspart; bis {most_percent} % lässt sich korrigieren. Für beide einen Widerstand nehmen, und einen Stapel mit mehr Volt.</translation>
    </message>
    <message>
        <source>The current was not found: {explained}.</source>
        <translation>Der Strom wurde nicht gefunden: {explained}.</translation>
    </message>
    <message>
        <source>The electrodes were lifted out {number} times; the last time counts as the swap. Tag &apos;Solution swapped&apos; where it was one.</source>
        <translation>Die Elektroden wurden {number}-mal herausgehoben; das letzte Mal gilt als der Wechsel. „Lösung gewechselt“ dort markieren, wo es einer war.</translation>
    </message>
    <message>
        <source>The growth was followed for {lengths} time constants; {lengths_for_settling} are needed to say where it would settle.</source>
        <translation>Das Wachstum wurde über {lengths} Zeitkonstanten verfolgt; {lengths_for_settling} sind nötig, um zu sagen, wo es einschwingen würde.</translation>
    </message>
    <message>
        <source>The growth was not fitted: {explained}.</source>
        <translation>Das Wachstum wurde nicht angepasst: {explained}.</translation>
    </message>
    <message>
        <source>The instrument on {port} takes no bytes since {at} ({seen}). Is it switched on, and is its flow control off?</source>
        <translation>Das Gerät an {port} nimmt seit {at} keine Bytes an ({seen}). Ist es eingeschaltet, und ist seine Flusskontrolle aus?</translation>
    </message>
    <message>
        <source>The instrument on {port} was disconnected at {at} ({seen}). Everything up to then is kept. Plug it in again.</source>
        <translation>Das Gerät an {port} wurde um {at} getrennt ({seen}). Alles bis dahin ist behalten. Wieder einstecken.</translation>
    </message>
    <message>
        <source>The live judgement stopped, by a fault of the program: {error}. Recording goes on.</source>
        <translation>Die Live-Beurteilung hat aufgehört, durch einen Fehler des Programms: {error}. Die Aufzeichnung läuft weiter.</translation>
    </message>
    <message>
        <source>The measured temperature was not used: {explained}.</source>
        <translation>Die gemessene Temperatur wurde nicht verwendet: {explained}.</translation>
    </message>
    <message>
        <source>The note “{label}” was not taken as a volume of gas. Write it as “hydrogen 4.30 mL” or “oxygen 2.15 mL”: one gas alone, never their mixture.</source>
        <translation>Die Notiz „{label}“ wurde nicht als Gasvolumen genommen. Als „Wasserstoff 4,30 mL“ oder „Sauerstoff 2,15 mL“ schreiben: ein Gas allein, nie das Gemisch.</translation>
    </message>
    <message>
        <source>The open cell is not recognised: {explained}.</source>
        <translation>Die offene Zelle wird nicht erkannt: {explained}.</translation>
    </message>
    <message>
        <source>The recording holds no bench file: supply, meter, electrodes and conditions are not known. Record or import with a bench file.</source>
        <translation>Die Aufzeichnung enthält keine Aufbau-Datei: Stromversorgung, Messgerät, Elektroden und Bedingungen sind nicht bekannt. Mit einer Aufbau-Datei aufzeichnen oder importieren.</translation>
    </message>
    <message>
        <source>The recording holds {f}: too few to conclude anything from. A settled voltage takes {fewest_samples} or more, over a minute. Record longer.</source>
        <translation>Die Aufzeichnung enthält {f}: zu wenig, um etwas daraus zu schließen. Eine eingeschwungene Spannung braucht {fewest_samples} oder mehr, über eine Minute. Länger aufzeichnen.</translation>
    </message>
    <message>
        <source>The resistor was changed, but the label of that moment does not say clearly to how many ohms: the current is not known from then on. Give the moment a label such as 4.7k.</source>
        <translation>Der Widerstand wurde gewechselt, aber der Text dieses Moments sagt nicht eindeutig, auf wie viele Ohm: der Strom ist ab dann nicht bekannt. Dem Moment einen Text wie 4.7k geben.</translation>
    </message>
    <message>
        <source>The run could not begin, by a fault of the program: {error}</source>
        <translation>Die Messung ließ sich nicht beginnen, durch einen Fehler des Programms: {error}</translation>
    </message>
    <message>
        <source>The run was given up before its instrument had answered. Nothing was recorded.</source>
        <translation>Die Messung wurde aufgegeben, bevor ihr Messgerät geantwortet hatte. Es wurde nichts aufgezeichnet.</translation>
    </message>
    <message>
        <source>The salt was tagged before the buffer came in, or with it, so there is no voltage before. Move the moments to where they belong.</source>
        <translation>Die Salzzugabe wurde vor dem Einfüllen des Puffers oder zugleich festgehalten, daher gibt es keine Spannung vorher. Die Momente dorthin verschieben, wohin sie gehören.</translation>
    </message>
    <message>
        <source>The salt was tagged {again} times before the swap; the first counts, and what came later is part of the growth.</source>
        <translation>Die Salzzugabe wurde {again}-mal vor dem Wechsel festgehalten; die erste zählt, und was später kam, gehört zum Wachstum.</translation>
    </message>
    <message>
        <source>The saving could not be stated at equal current: {explained}.</source>
        <translation>Die Einsparung ließ sich nicht für gleichen Strom angeben: {explained}.</translation>
    </message>
    <message>
        <source>The shunt gives {measured_ma} mA, the supply circuit {computed_ma} mA. Check stack voltage and resistor; the shunt is used, but charge and gas follow from the circuit.</source>
        <translation>Der Shunt ergibt {measured_ma} mA, der Versorgungskreis {computed_ma} mA. Stapelspannung und Widerstand prüfen; der Shunt gilt, Ladung und Gas folgen aber aus dem Versorgungskreis.</translation>
    </message>
    <message>
        <source>The shunt would make {measured_ma} mA, the supply circuit makes {computed_ma} mA: it lies elsewhere than across the series resistor, and is not used. Connect it there, or check its scale.</source>
        <translation>Der Shunt ergäbe {measured_ma} mA, der Versorgungskreis ergibt {computed_ma} mA: er liegt anderswo als über dem Vorwiderstand und wird nicht verwendet. Dort anschließen oder seinen Maßstab prüfen.</translation>
    </message>
    <message>
        <source>The temperature and the pressure of the bench file were not used: {refusal}.</source>
        <translation>Temperatur und Druck der Aufbau-Datei wurden nicht verwendet: {refusal}.</translation>
    </message>
    <message>
        <source>The two voltages were not compared: {explained}.</source>
        <translation>Die beiden Spannungen wurden nicht verglichen: {explained}.</translation>
    </message>
    <message>
        <source>The zero of {zero_v} mV is much for a meter: were its two leads held together, off the cell?</source>
        <translation>Ein Nullpunkt von {zero_v} mV ist viel für ein Messgerät: wurden seine beiden Leitungen zusammengehalten, weg von der Zelle?</translation>
    </message>
    <message>
        <source>There are no readings yet.</source>
        <translation>Es gibt noch keine Messwerte.</translation>
    </message>
    <message>
        <source>There is no electrolysis in the phase &apos;{name}&apos;: {instead}.</source>
        <translation>In der Phase „{name}“ gibt es keine Elektrolyse: {instead}.</translation>
    </message>
    <message>
        <source>This picture cannot be shown.</source>
        <translation>Dieses Bild kann nicht gezeigt werden.</translation>
    </message>
    <message>
        <source>Voltages below {least_apart_v} V tell the zero, but not the gain: for that take one more, of 1 V or more.</source>
        <translation>Spannungen unter {least_apart_v} V zeigen den Nullpunkt, aber nicht den Faktor: dafür noch eine aufnehmen, von 1 V oder mehr.</translation>
    </message>
    <message>
        <source>When the run began is not known: the readings come from a text file. Import them with the data package that was exported with them, which tells it.</source>
        <translation>Wann die Messung begann, ist nicht bekannt: Die Werte stammen aus einer Textdatei. Importieren Sie sie mit dem Datenpaket, das mit ihnen exportiert wurde und es sagt.</translation>
    </message>
    <message>
        <source>a column in a file is read in order, every reading</source>
        <translation>eine Spalte einer Datei wird der Reihe nach gelesen, jeder Messwert</translation>
    </message>
    <message>
        <source>a compressed part does not hold its {size} bytes</source>
        <translation>ein komprimiertes Teilstück enthält nicht seine {size} Bytes</translation>
    </message>
    <message>
        <source>a compressed part is damaged ({error})</source>
        <translation>ein komprimiertes Teilstück ist beschädigt ({error})</translation>
    </message>
    <message>
        <source>a part of {value} bytes should have {size}</source>
        <translation>ein Teilstück von {value} Bytes sollte {size} haben</translation>
    </message>
    <message>
        <source>a picture in {path} cannot be read</source>
        <translation>ein Bild in {path} ist nicht lesbar</translation>
    </message>
    <message>
        <source>an entry ATTACHMENT holds no picture</source>
        <translation>ein Eintrag ATTACHMENT enthält kein Bild</translation>
    </message>
    <message>
        <source>an entry ATTACHMENT holds {data} bytes, not {get}</source>
        <translation>ein Eintrag ATTACHMENT enthält {data} Bytes, nicht {get}</translation>
    </message>
    <message>
        <source>an unfinished run of that name lies beside it; first: galvanote recover &apos;{out}&apos;</source>
        <translation>eine nicht abgeschlossene Messung dieses Namens liegt daneben; zuerst: galvanote recover &apos;{out}&apos;</translation>
    </message>
    <message>
        <source>as the data package says</source>
        <translation>wie das Datenpaket sagt</translation>
    </message>
    <message>
        <source>choose a shorter name</source>
        <translation>einen kürzeren Namen wählen</translation>
    </message>
    <message>
        <source>choose another place, or ask for permission</source>
        <translation>einen anderen Ort wählen, oder um Erlaubnis bitten</translation>
    </message>
    <message>
        <source>current before the break</source>
        <translation>Strom vor der Unterbrechung</translation>
    </message>
    <message>
        <source>give one count of the last digit, for example 0.001 V</source>
        <translation>eine Stufe der letzten Stelle angeben, zum Beispiel 0.001 V</translation>
    </message>
    <message>
        <source>give the stack voltage and the resistor in the bench file</source>
        <translation>Batteriespannung und Vorwiderstand in der Aufbau-Datei angeben</translation>
    </message>
    <message>
        <source>give the supply in the bench file, and note the volume when the gas has been collected</source>
        <translation>die Speisung in der Aufbau-Datei angeben und das Volumen notieren, wenn das Gas gesammelt ist</translation>
    </message>
    <message>
        <source>it cannot be shown here</source>
        <translation>es kann hier nicht gezeigt werden</translation>
    </message>
    <message>
        <source>it fell by about {height_mv} mV</source>
        <translation>sie fiel um etwa {height_mv} mV</translation>
    </message>
    <message>
        <source>it is no HDF5 file, as every recording is</source>
        <translation>keine HDF5-Datei, wie es jede Aufzeichnung ist</translation>
    </message>
    <message>
        <source>it is no stretch of the run</source>
        <translation>es ist kein Abschnitt der Messung</translation>
    </message>
    <message>
        <source>it is no water</source>
        <translation>es ist kein Wasser</translation>
    </message>
    <message>
        <source>it is not a finite number</source>
        <translation>es ist keine endliche Zahl</translation>
    </message>
    <message>
        <source>it is not finite</source>
        <translation>es ist nicht endlich</translation>
    </message>
    <message>
        <source>it is not known</source>
        <translation>es ist nicht bekannt</translation>
    </message>
    <message>
        <source>it is not known here</source>
        <translation>es ist hier nicht bekannt</translation>
    </message>
    <message>
        <source>it is outside extra-low voltage, where local rules decide who may work with it</source>
        <translation>es liegt außerhalb der Kleinspannung; die Regeln vor Ort entscheiden, wer damit arbeiten darf</translation>
    </message>
    <message>
        <source>it is the same run as {uuid}, which would pass for a replicate</source>
        <translation>es ist dieselbe Messung wie {uuid}, die als Wiederholung gälte</translation>
    </message>
    <message>
        <source>it looks like kelvin</source>
        <translation>es sieht nach Kelvin aus</translation>
    </message>
    <message>
        <source>it looks like {units}</source>
        <translation>es sieht aus wie {units}</translation>
    </message>
    <message>
        <source>it may not be read; check its permissions</source>
        <translation>nicht lesbar; die Zugriffsrechte prüfen</translation>
    </message>
    <message>
        <source>it must be {wanted}</source>
        <translation>es muss {wanted} sein</translation>
    </message>
    <message>
        <source>it must lie between 0 and 1</source>
        <translation>es muss zwischen 0 und 1 liegen</translation>
    </message>
    <message>
        <source>it rose by about {height_mv} mV</source>
        <translation>sie stieg um etwa {height_mv} mV</translation>
    </message>
    <message>
        <source>it says automatic and manual range at once; without column=b it may be right</source>
        <translation>es meldet automatischen und manuellen Messbereich zugleich; ohne column=b stimmt es vielleicht</translation>
    </message>
    <message>
        <source>it shows no voltage saved</source>
        <translation>sie zeigt keine eingesparte Spannung</translation>
    </message>
    <message>
        <source>it was cut off: of {found} bytes {found_2} are there</source>
        <translation>sie ist abgeschnitten: von {found} Bytes sind {found_2} da</translation>
    </message>
    <message>
        <source>its anode has {anode_area_cm2} cm2, those of the others {usual_cm2} cm2</source>
        <translation>ihre Anode hat {anode_area_cm2} cm2, die der anderen {usual_cm2} cm2</translation>
    </message>
    <message>
        <source>its current of {current_before_a} mA is more than {greatest_current_change} % off the {usual_a} mA of the others</source>
        <translation>ihr Strom von {current_before_a} mA weicht um mehr als {greatest_current_change} % von den {usual_a} mA der anderen ab</translation>
    </message>
    <message>
        <source>its inner structure is damaged</source>
        <translation>ihr innerer Aufbau ist beschädigt</translation>
    </message>
    <message>
        <source>its moments have been changed in the file meanwhile</source>
        <translation>ihre Momente wurden inzwischen in der Datei geändert</translation>
    </message>
    <message>
        <source>its polarity is reversed</source>
        <translation>die Polung ist vertauscht</translation>
    </message>
    <message>
        <source>its process ended with status {returncode}</source>
        <translation>ihr Prozess endete mit Status {returncode}</translation>
    </message>
    <message>
        <source>its range is none of the volt ranges</source>
        <translation>der Messbereich ist keiner der Spannungsbereiche</translation>
    </message>
    <message>
        <source>its readings are those of {file}, one by one</source>
        <translation>die Werte sind die von {file}, einer wie der andere</translation>
    </message>
    <message>
        <source>its unit is neither V nor mV</source>
        <translation>die Einheit ist weder V noch mV</translation>
    </message>
    <message>
        <source>its voltage had not settled</source>
        <translation>ihre Spannung war nicht eingeschwungen</translation>
    </message>
    <message>
        <source>its voltage {name} had not settled</source>
        <translation>ihre Spannung {name} war nicht eingeschwungen</translation>
    </message>
    <message>
        <source>keep current_A only for a supply that holds the current by itself</source>
        <translation>current_A nur für ein Netzgerät behalten, das den Strom selbst hält</translation>
    </message>
    <message>
        <source>keep to {most_steps} steps</source>
        <translation>höchstens {most_steps} Schritte</translation>
    </message>
    <message>
        <source>known are {colours}</source>
        <translation>bekannt sind {colours}</translation>
    </message>
    <message>
        <source>known are {kinds}</source>
        <translation>bekannt sind {kinds}</translation>
    </message>
    <message>
        <source>known are {known}</source>
        <translation>bekannt sind {known}</translation>
    </message>
    <message>
        <source>leave it out, or find why it is missing</source>
        <translation>weglassen, oder herausfinden, warum es fehlt</translation>
    </message>
    <message>
        <source>leave out missing readings first</source>
        <translation>fehlende Messwerte zuerst weglassen</translation>
    </message>
    <message>
        <source>leave out the run, or analyse it again</source>
        <translation>die Messung weglassen, oder sie neu auswerten</translation>
    </message>
    <message>
        <source>leave the leads where they are from before to after</source>
        <translation>die Leitungen von vorher bis nachher lassen, wo sie sind</translation>
    </message>
    <message>
        <source>leave them out first</source>
        <translation>sie zuerst weglassen</translation>
    </message>
    <message>
        <source>length of the growth in s</source>
        <translation>Länge des Wachstums in s</translation>
    </message>
    <message>
        <source>less than 20 kohm would load the cell</source>
        <translation>weniger als 20 kOhm würden die Zelle belasten</translation>
    </message>
    <message>
        <source>let the catalyst grow longer</source>
        <translation>den Katalysator länger wachsen lassen</translation>
    </message>
    <message>
        <source>limit for stray readings</source>
        <translation>Grenze für Ausreißer</translation>
    </message>
    <message>
        <source>limit of the chart</source>
        <translation>Grenze der Regelkarte</translation>
    </message>
    <message>
        <source>liquid water has no vapour pressure there</source>
        <translation>flüssiges Wasser hat dort keinen Dampfdruck</translation>
    </message>
    <message>
        <source>load current in A</source>
        <translation>Laststrom in A</translation>
    </message>
    <message>
        <source>loaded reading in V</source>
        <translation>Messwert unter Last in V</translation>
    </message>
    <message>
        <source>look at what was added, at the electrodes and the contacts</source>
        <translation>nachsehen, was zugegeben wurde, und nach Elektroden und Kontakten</translation>
    </message>
    <message>
        <source>look for air that leaked in, a wrong temperature or pressure, or a gap in the charge</source>
        <translation>nach eingedrungener Luft suchen, nach falscher Temperatur oder falschem Druck, oder nach einer Lücke in der Ladung</translation>
    </message>
    <message>
        <source>look up the tolerance in the resistor&apos;s data sheet</source>
        <translation>die Toleranz im Datenblatt des Widerstands nachsehen</translation>
    </message>
    <message>
        <source>looking at it takes too long; either it is damaged, or the computer or the disk is busy</source>
        <translation>sie anzusehen dauert zu lange; entweder ist sie beschädigt, oder Rechner oder Datenträger sind beschäftigt</translation>
    </message>
    <message>
        <source>measure the resistor instead</source>
        <translation>stattdessen den Widerstand messen</translation>
    </message>
    <message>
        <source>metal salt</source>
        <translation>Metallsalz</translation>
    </message>
    <message>
        <source>meter after</source>
        <translation>Messgerät nachher</translation>
    </message>
    <message>
        <source>meter before</source>
        <translation>Messgerät vorher</translation>
    </message>
    <message>
        <source>meter gain</source>
        <translation>Faktor des Messgeräts</translation>
    </message>
    <message>
        <source>meter gain on the difference</source>
        <translation>Faktor des Messgeräts bei der Differenz</translation>
    </message>
    <message>
        <source>meters are good for 0 to 10 % of the reading</source>
        <translation>Messgeräte sind auf 0 bis 10 % des Messwerts genau</translation>
    </message>
    <message>
        <source>meters are good for 0 to 1000 counts</source>
        <translation>Messgeräte sind auf 0 bis 1000 Digits genau</translation>
    </message>
    <message>
        <source>millimetres of mercury</source>
        <translation>Millimeter Quecksilbersäule</translation>
    </message>
    <message>
        <source>models tried</source>
        <translation>ausprobierte Modelle</translation>
    </message>
    <message>
        <source>more gas was found than the charge can have made</source>
        <translation>es wurde mehr Gas gefunden, als die Ladung erzeugt haben kann</translation>
    </message>
    <message>
        <source>more points, or another model</source>
        <translation>mehr Punkte, oder ein anderes Modell</translation>
    </message>
    <message>
        <source>more than zero</source>
        <translation>mehr als null</translation>
    </message>
    <message>
        <source>multiplier band</source>
        <translation>Multiplikatorring</translation>
    </message>
    <message>
        <source>must be a list of tables</source>
        <translation>muss eine Liste von Tabellen sein</translation>
    </message>
    <message>
        <source>must be a number, not {kind_of}</source>
        <translation>muss eine Zahl sein, nicht {kind_of}</translation>
    </message>
    <message>
        <source>must be a table</source>
        <translation>muss eine Tabelle sein</translation>
    </message>
    <message>
        <source>must be a text, not {kind_of}</source>
        <translation>muss ein Text sein, nicht {kind_of}</translation>
    </message>
    <message>
        <source>must be a whole number; write for example {number}</source>
        <translation>muss eine ganze Zahl sein; zum Beispiel {number} schreiben</translation>
    </message>
    <message>
        <source>name each run once</source>
        <translation>jede Messung einmal nennen</translation>
    </message>
    <message>
        <source>name two or more</source>
        <translation>zwei oder mehr nennen</translation>
    </message>
    <message>
        <source>no calibration is kept for {identity}; see galvanote calibrate show</source>
        <translation>für {identity} ist keine Kalibrierung aufbewahrt; siehe galvanote calibrate show</translation>
    </message>
    <message>
        <source>no channel can be called {name}: a recording needs it; choose another channel=</source>
        <translation>kein Kanal darf {name} heißen: die Aufzeichnung braucht den Namen; ein anderes channel= wählen</translation>
    </message>
    <message>
        <source>no charge is known from {begin_s} s to {end_s} s</source>
        <translation>von {begin_s} s bis {end_s} s ist keine Ladung bekannt</translation>
    </message>
    <message>
        <source>no column {name} can be emulated{hint} (known: {known})</source>
        <translation>keine Spalte {name} lässt sich emulieren{hint} (bekannt: {known})</translation>
    </message>
    <message>
        <source>no data arrived</source>
        <translation>es kamen keine Daten</translation>
    </message>
    <message>
        <source>no effect shown ({amount})</source>
        <translation>keine Wirkung erkennbar ({amount})</translation>
    </message>
    <message>
        <source>no line has named the columns yet, so {column} is not known. Press the board&apos;s reset button if it prints the names when it starts, or give the number: column={known}.</source>
        <translation>noch keine Zeile hat die Spalten benannt, daher ist {column} nicht bekannt. Den Reset-Knopf der Platine drücken, wenn sie die Namen beim Start schreibt, oder die Nummer angeben: column={known}.</translation>
    </message>
    <message>
        <source>no more hydrogen can form than the charge allows</source>
        <translation>es kann nicht mehr Wasserstoff entstehen, als die Ladung erlaubt</translation>
    </message>
    <message>
        <source>no multiplier band goes so far</source>
        <translation>kein Multiplikatorring reicht so weit</translation>
    </message>
    <message>
        <source>no name says which column is the voltage ({names}). Add column={names_2} to the address if that is the one.</source>
        <translation>kein Name sagt, welche Spalte die Spannung ist ({names}). Wenn es diese ist, column={names_2} in die Adresse schreiben.</translation>
    </message>
    <message>
        <source>no open cell has that pressure, so the unit is in doubt (hPa, kPa, mmHg and bar must be converted)</source>
        <translation>keine offene Zelle hat diesen Druck, die Einheit ist also fraglich (hPa, kPa, mmHg und bar müssen umgerechnet werden)</translation>
    </message>
    <message>
        <source>no reading for {longest_gap_s} s of {length_s} s; at most a tenth of the window may be missing at a time</source>
        <translation>{longest_gap_s} s von {length_s} s ohne Messwert; höchstens ein Zehntel des Abschnitts darf am Stück fehlen</translation>
    </message>
    <message>
        <source>no reading has come in the last seconds; connect the meter and let it send</source>
        <translation>in den letzten Sekunden kam kein Messwert; das Messgerät anschließen und senden lassen</translation>
    </message>
    <message>
        <source>no recording can be begun in {folder} ({strerror}); choose another folder</source>
        <translation>in {folder} lässt sich keine Aufzeichnung beginnen ({strerror}); einen anderen Ordner wählen</translation>
    </message>
    <message>
        <source>no recording can be begun in {parent} ({strerror})</source>
        <translation>in {parent} kann keine Aufzeichnung begonnen werden ({strerror})</translation>
    </message>
    <message>
        <source>no room for what has been recorded so far</source>
        <translation>kein Platz für das, was bisher aufgezeichnet wurde</translation>
    </message>
    <message>
        <source>no salt was tagged and no lasting fall was seen</source>
        <translation>es wurde keine Salzzugabe festgehalten und kein bleibender Abfall gesehen</translation>
    </message>
    <message>
        <source>no salt was tagged, but the voltage fell as it does after salt</source>
        <translation>es wurde keine Salzzugabe festgehalten, aber die Spannung fiel wie nach Salz</translation>
    </message>
    <message>
        <source>no scatter</source>
        <translation>keine Streuung</translation>
    </message>
    <message>
        <source>no second copy can be begun in {folder} ({strerror})</source>
        <translation>in {folder} lässt sich keine zweite Kopie beginnen ({strerror})</translation>
    </message>
    <message>
        <source>no start led to an answer</source>
        <translation>kein Startwert führte zu einer Lösung</translation>
    </message>
    <message>
        <source>no supply on the bench</source>
        <translation>Stromversorgung fehlt im Aufbau</translation>
    </message>
    <message>
        <source>no time constant is reported</source>
        <translation>eine Zeitkonstante wird nicht angegeben</translation>
    </message>
    <message>
        <source>no tube is that long</source>
        <translation>so lang ist kein Rohr</translation>
    </message>
    <message>
        <source>no two readings in a row are voltages, there is overload or nothing. Choose a higher range and lock it, check the leads</source>
        <translation>keine zwei Messwerte nacheinander sind Spannungen, es gibt Überlauf oder nichts. Einen höheren Messbereich wählen und festhalten, die Leitungen prüfen</translation>
    </message>
    <message>
        <source>no volts</source>
        <translation>kein Volt</translation>
    </message>
    <message>
        <source>nothing before</source>
        <translation>nichts vorher</translation>
    </message>
    <message>
        <source>nothing says how large it shall be</source>
        <translation>nichts sagt, wie groß er sein soll</translation>
    </message>
    <message>
        <source>nothing says how many ohms it had (label the moment with them)</source>
        <translation>nichts sagt, wie viel Ohm er hatte (sie in den Text des Moments schreiben)</translation>
    </message>
    <message>
        <source>nothing tells this instrument from another one of its kind; give it a name (More settings), then the calibration can be kept for it</source>
        <translation>nichts unterscheidet dieses Gerät von einem zweiten seiner Art; ihm einen Namen geben (Weitere Angaben), dann lässt sich die Kalibrierung dafür aufbewahren</translation>
    </message>
    <message>
        <source>ohmic resistance in ohm</source>
        <translation>ohmscher Widerstand in Ohm</translation>
    </message>
    <message>
        <source>ohms not given</source>
        <translation>Ohm nicht angegeben</translation>
    </message>
    <message>
        <source>once, {length}</source>
        <translation>einmal, {length}</translation>
    </message>
    <message>
        <source>one count is 1 nV to 0.1 V</source>
        <translation>ein Digit ist 1 nV bis 0,1 V</translation>
    </message>
    <message>
        <source>one of them</source>
        <translation>einer davon</translation>
    </message>
    <message>
        <source>one reading in a thousand is missing</source>
        <translation>ein Messwert von tausend fehlt</translation>
    </message>
    <message>
        <source>one reading is missing by the board&apos;s clock</source>
        <translation>nach der Uhr der Platine fehlt ein Messwert</translation>
    </message>
    <message>
        <source>one reading lies</source>
        <translation>ein Messwert liegt</translation>
    </message>
    <message>
        <source>only times would be printed; add a quantity, for example cell_voltage</source>
        <translation>es würden nur Zeiten geschrieben; eine Größe dazunehmen, zum Beispiel cell_voltage</translation>
    </message>
    <message>
        <source>open reading in V</source>
        <translation>offener Messwert in V</translation>
    </message>
    <message>
        <source>open-circuit voltage</source>
        <translation>Leerlaufspannung</translation>
    </message>
    <message>
        <source>open-circuit voltage in V</source>
        <translation>Leerlaufspannung in V</translation>
    </message>
    <message>
        <source>over water, {temperature_c} degC, {pressure_pa} kPa</source>
        <translation>über Wasser, {temperature_c} degC, {pressure_pa} kPa</translation>
    </message>
    <message>
        <source>overload and missing readings are no voltages</source>
        <translation>Überlauf und fehlende Messwerte sind keine Spannungen</translation>
    </message>
    <message>
        <source>pairs of name and value</source>
        <translation>Paare aus Name und Wert</translation>
    </message>
    <message>
        <source>partial pressure of hydrogen in Pa</source>
        <translation>Partialdruck des Wasserstoffs in Pa</translation>
    </message>
    <message>
        <source>partial pressure of oxygen in Pa</source>
        <translation>Partialdruck des Sauerstoffs in Pa</translation>
    </message>
    <message>
        <source>perhaps volts</source>
        <translation>vielleicht Volt</translation>
    </message>
    <message>
        <source>points of the Tafel line</source>
        <translation>Punkte der Tafel-Geraden</translation>
    </message>
    <message>
        <source>points of the fit</source>
        <translation>Punkte der Anpassung</translation>
    </message>
    <message>
        <source>power rating of the resistor in W</source>
        <translation>Belastbarkeit des Vorwiderstands in W</translation>
    </message>
    <message>
        <source>pressure in Pa</source>
        <translation>Druck in Pa</translation>
    </message>
    <message>
        <source>put it in &quot;quotes&quot;</source>
        <translation>in &quot;Anführungszeichen&quot; setzen</translation>
    </message>
    <message>
        <source>raise the current step by step and lower it again</source>
        <translation>den Strom stufenweise erhöhen und wieder senken</translation>
    </message>
    <message>
        <source>ranges reach from 0.01 to 1000 V</source>
        <translation>Messbereiche reichen von 0,01 bis 1000 V</translation>
    </message>
    <message>
        <source>read ahead</source>
        <translation>vorauslesen</translation>
    </message>
    <message>
        <source>read the bands again</source>
        <translation>die Ringe noch einmal lesen</translation>
    </message>
    <message>
        <source>read them again</source>
        <translation>noch einmal lesen</translation>
    </message>
    <message>
        <source>reading it breaks the HDF5 library</source>
        <translation>beim Lesen bricht die HDF5-Bibliothek ab</translation>
    </message>
    <message>
        <source>readings at the end of the phase</source>
        <translation>Messwerte am Ende der Phase</translation>
    </message>
    <message>
        <source>readings in the phase</source>
        <translation>Messwerte in der Phase</translation>
    </message>
    <message>
        <source>readings in the window</source>
        <translation>Messwerte im Abschnitt</translation>
    </message>
    <message>
        <source>readings of other origin (text)</source>
        <translation>Werte anderer Herkunft (Text)</translation>
    </message>
    <message>
        <source>readings of the growth</source>
        <translation>Messwerte des Wachstums</translation>
    </message>
    <message>
        <source>readings outside electrolysis in percent</source>
        <translation>Messwerte außerhalb der Elektrolyse in Prozent</translation>
    </message>
    <message>
        <source>readings with impossible times were left out</source>
        <translation>Messwerte mit unmöglichen Zeiten wurden weggelassen</translation>
    </message>
    <message>
        <source>record faster</source>
        <translation>schneller aufzeichnen</translation>
    </message>
    <message>
        <source>record longer</source>
        <translation>länger aufzeichnen</translation>
    </message>
    <message>
        <source>record without gaps</source>
        <translation>ohne Lücken aufzeichnen</translation>
    </message>
    <message>
        <source>record without gaps, faster or longer</source>
        <translation>ohne Lücken, schneller oder länger aufzeichnen</translation>
    </message>
    <message>
        <source>record {fewest_samples} or more</source>
        <translation>{fewest_samples} oder mehr aufzeichnen</translation>
    </message>
    <message>
        <source>relative uncertainty</source>
        <translation>relative Unsicherheit</translation>
    </message>
    <message>
        <source>relative uncertainty of an uncertainty</source>
        <translation>relative Unsicherheit einer Unsicherheit</translation>
    </message>
    <message>
        <source>relative uncertainty of the current ratio</source>
        <translation>relative Unsicherheit des Stromverhältnisses</translation>
    </message>
    <message>
        <source>replay of {port}, recorded {start_time}</source>
        <translation>Wiedergabe von {port}, aufgezeichnet {start_time}</translation>
    </message>
    <message>
        <source>replicate runs</source>
        <translation>Wiederholungsmessungen</translation>
    </message>
    <message>
        <source>resistor in ohm</source>
        <translation>Widerstand in Ohm</translation>
    </message>
    <message>
        <source>resistors are rated 0.01 to 100 W</source>
        <translation>Widerstände sind mit 0,01 bis 100 W belastbar</translation>
    </message>
    <message>
        <source>resolution after</source>
        <translation>Auflösung nachher</translation>
    </message>
    <message>
        <source>resolution before</source>
        <translation>Auflösung vorher</translation>
    </message>
    <message>
        <source>resolution in V</source>
        <translation>Auflösung in V</translation>
    </message>
    <message>
        <source>returned no data</source>
        <translation>lieferte keine Daten</translation>
    </message>
    <message>
        <source>reversible voltage</source>
        <translation>reversible Spannung</translation>
    </message>
    <message>
        <source>round it to three digits</source>
        <translation>auf drei Stellen runden</translation>
    </message>
    <message>
        <source>row 0 minimum, row 1 maximum of each bucket of samples, overload left out</source>
        <translation>Zeile 0 Minimum, Zeile 1 Maximum jeder Gruppe von Messwerten, ohne Überlauf</translation>
    </message>
    <message>
        <source>runs and blank runs</source>
        <translation>Messungen und Blindversuche</translation>
    </message>
    <message>
        <source>runs to compare</source>
        <translation>zu vergleichende Messungen</translation>
    </message>
    <message>
        <source>sag of the stack in V</source>
        <translation>Absinken des Stapels in V</translation>
    </message>
    <message>
        <source>salt was tagged</source>
        <translation>Salzzugabe wurde festgehalten</translation>
    </message>
    <message>
        <source>samples in a second</source>
        <translation>Messwerte pro Sekunde</translation>
    </message>
    <message>
        <source>samples in the window</source>
        <translation>Messwerte im Abschnitt</translation>
    </message>
    <message>
        <source>samples of {channel}: times {shape}, values {shape_2}, quality {shape_3} must be vectors of one length</source>
        <translation>Messwerte von {channel}: Zeiten {shape}, Werte {shape_2}, Güte {shape_3} müssen Vektoren gleicher Länge sein</translation>
    </message>
    <message>
        <source>samples with a current</source>
        <translation>Messwerte mit Strom</translation>
    </message>
    <message>
        <source>samples {begin} to {end} cannot be read ({error})</source>
        <translation>die Messwerte {begin} bis {end} sind nicht lesbar ({error})</translation>
    </message>
    <message>
        <source>samples {begin} to {end} hold a time that goes back or something that is no number</source>
        <translation>die Messwerte {begin} bis {end} enthalten eine rückwärts laufende Zeit oder etwas, das keine Zahl ist</translation>
    </message>
    <message>
        <source>saturated with water vapour</source>
        <translation>mit Wasserdampf gesättigt</translation>
    </message>
    <message>
        <source>scatter cannot be seen from it</source>
        <translation>daraus ist die Streuung nicht zu sehen</translation>
    </message>
    <message>
        <source>sensitivity to {name}</source>
        <translation>Empfindlichkeit für {name}</translation>
    </message>
    <message>
        <source>series of resistors</source>
        <translation>Reihe der Widerstände</translation>
    </message>
    <message>
        <source>series resistor in ohm</source>
        <translation>Vorwiderstand in Ohm</translation>
    </message>
    <message>
        <source>settle at {fewest_currents} or more currents over a decade or more</source>
        <translation>bei {fewest_currents} oder mehr Strömen über eine Dekade oder mehr einschwingen lassen</translation>
    </message>
    <message>
        <source>settle before or after</source>
        <translation>vorher oder nachher einschwingen lassen</translation>
    </message>
    <message>
        <source>settled voltages</source>
        <translation>eingeschwungene Spannungen</translation>
    </message>
    <message>
        <source>settling limit</source>
        <translation>Einschwinggrenze</translation>
    </message>
    <message>
        <source>settling window in s</source>
        <translation>Einschwingabschnitt in s</translation>
    </message>
    <message>
        <source>several columns may be the voltage ({named}). Add the one to record to the address, for example column={example}; a list of columns fills a channel each.</source>
        <translation>mehrere Spalten können die Spannung sein ({named}). Die gewünschte in die Adresse schreiben, zum Beispiel column={example}; mehrere Spalten füllen je einen Kanal.</translation>
    </message>
    <message>
        <source>several names may be the voltage ({known}). Add the one to record to the address, for example column={name}; a list of names fills a channel each.</source>
        <translation>mehrere Namen können die Spannung sein ({known}). Den gewünschten in die Adresse schreiben, zum Beispiel column={name}; mehrere Namen füllen je einen Kanal.</translation>
    </message>
    <message>
        <source>shape {shape}</source>
        <translation>Form {shape}</translation>
    </message>
    <message>
        <source>shapes of the samples</source>
        <translation>Formen der Messwerte</translation>
    </message>
    <message>
        <source>shapes {shape} and {shape_2}</source>
        <translation>Formen {shape} und {shape_2}</translation>
    </message>
    <message>
        <source>shunt resistance in ohm</source>
        <translation>Shuntwiderstand in Ohm</translation>
    </message>
    <message>
        <source>shunt voltage in V</source>
        <translation>Shuntspannung in V</translation>
    </message>
    <message>
        <source>sign of the readings</source>
        <translation>Vorzeichen der Messwerte</translation>
    </message>
    <message>
        <source>simulated cell (invented data)</source>
        <translation>simulierte Zelle (erfundene Daten)</translation>
    </message>
    <message>
        <source>simulated, sample n at n / rate</source>
        <translation>simuliert, Messwert n bei n / Rate</translation>
    </message>
    <message>
        <source>single numbers</source>
        <translation>einzelne Zahlen</translation>
    </message>
    <message>
        <source>so few do not tell models apart</source>
        <translation>so wenige unterscheiden keine Modelle</translation>
    </message>
    <message>
        <source>so few say nothing</source>
        <translation>so wenige sagen nichts</translation>
    </message>
    <message>
        <source>so few say nothing about the noise between them</source>
        <translation>so wenige sagen nichts über das Rauschen dazwischen</translation>
    </message>
    <message>
        <source>so few tell nothing</source>
        <translation>so wenige zeigen nichts</translation>
    </message>
    <message>
        <source>so large a difference changes the voltage as much as a catalyst may</source>
        <translation>ein so großer Unterschied ändert die Spannung so sehr wie ein Katalysator</translation>
    </message>
    <message>
        <source>some readings are held, overloaded or damaged; end HOLD or REL at the meter, see that its range holds the voltage, and begin again</source>
        <translation>einige Messwerte sind festgehalten, übergelaufen oder beschädigt; am Messgerät HOLD oder REL beenden, darauf achten, dass der Messbereich die Spannung fasst, und neu beginnen</translation>
    </message>
    <message>
        <source>some times are not numbers</source>
        <translation>einige Zeiten sind keine Zahlen</translation>
    </message>
    <message>
        <source>something other than DC volts</source>
        <translation>etwas anderes als Gleichspannung</translation>
    </message>
    <message>
        <source>square metre</source>
        <translation>Quadratmeter</translation>
    </message>
    <message>
        <source>square millimetre</source>
        <translation>Quadratmillimeter</translation>
    </message>
    <message>
        <source>stack voltage in V</source>
        <translation>Stapelspannung in V</translation>
    </message>
    <message>
        <source>standard uncertainty of a current in A</source>
        <translation>Standardunsicherheit eines Stroms in A</translation>
    </message>
    <message>
        <source>standard uncertainty of a reading in V</source>
        <translation>Standardunsicherheit eines Messwerts in V</translation>
    </message>
    <message>
        <source>standard uncertainty of a voltage in V</source>
        <translation>Standardunsicherheit einer Spannung in V</translation>
    </message>
    <message>
        <source>standard uncertainty of the Tafel slope</source>
        <translation>Standardunsicherheit der Tafel-Steigung</translation>
    </message>
    <message>
        <source>standard uncertainty of the cell voltage in V</source>
        <translation>Standardunsicherheit der Zellspannung in V</translation>
    </message>
    <message>
        <source>standard uncertainty of the current in A</source>
        <translation>Standardunsicherheit des Stroms in A</translation>
    </message>
    <message>
        <source>standard uncertainty of the ohmic resistance</source>
        <translation>Standardunsicherheit des ohmschen Widerstands</translation>
    </message>
    <message>
        <source>standard uncertainty of the shunt in ohm</source>
        <translation>Standardunsicherheit des Shunts in Ohm</translation>
    </message>
    <message>
        <source>standard uncertainty of the shunt voltage in V</source>
        <translation>Standardunsicherheit der Shuntspannung in V</translation>
    </message>
    <message>
        <source>standard uncertainty of the {name}</source>
        <translation>Standardunsicherheit: {name}</translation>
    </message>
    <message>
        <source>standard uncertainty of {name}</source>
        <translation>Standardunsicherheit von {name}</translation>
    </message>
    <message>
        <source>stirrers turn 0 to 3000 times a minute</source>
        <translation>Rührer drehen 0- bis 3000-mal pro Minute</translation>
    </message>
    <message>
        <source>stretched exponential</source>
        <translation>gestreckte Exponentialfunktion</translation>
    </message>
    <message>
        <source>supply on, cell dry</source>
        <translation>Stromversorgung an, Zelle trocken</translation>
    </message>
    <message>
        <source>swap the leads and read it again</source>
        <translation>die Leitungen tauschen und noch einmal ablesen</translation>
    </message>
    <message>
        <source>swapped leads</source>
        <translation>vertauschte Leitungen</translation>
    </message>
    <message>
        <source>table [{section}]</source>
        <translation>Tabelle [{section}]</translation>
    </message>
    <message>
        <source>take a resistor of at least {rating_w} ohm, or one rated {touching_power_w} W or more</source>
        <translation>einen Widerstand von mindestens {rating_w} Ohm nehmen, oder einen mit {touching_power_w} W Belastbarkeit oder mehr</translation>
    </message>
    <message>
        <source>take more cells in the stack, or a smaller current</source>
        <translation>mehr Zellen in den Stapel nehmen, oder einen kleineren Strom</translation>
    </message>
    <message>
        <source>temperature after minus before in K</source>
        <translation>Temperatur nachher minus vorher in K</translation>
    </message>
    <message>
        <source>temperature coefficient</source>
        <translation>Temperaturkoeffizient</translation>
    </message>
    <message>
        <source>temperature difference</source>
        <translation>Temperaturunterschied</translation>
    </message>
    <message>
        <source>temperature in degC</source>
        <translation>Temperatur in degC</translation>
    </message>
    <message>
        <source>that colour is no digit</source>
        <translation>diese Farbe ist keine Ziffer</translation>
    </message>
    <message>
        <source>that colour is no multiplier</source>
        <translation>diese Farbe ist kein Multiplikator</translation>
    </message>
    <message>
        <source>that colour is no tolerance</source>
        <translation>diese Farbe ist keine Toleranz</translation>
    </message>
    <message>
        <source>the answer is empty</source>
        <translation>die Antwort ist leer</translation>
    </message>
    <message>
        <source>the answer {value} is not a number in volts</source>
        <translation>die Antwort {value} ist keine Zahl in Volt</translation>
    </message>
    <message>
        <source>the answer {value} is not one number (two values, or a decimal comma)</source>
        <translation>die Antwort {value} ist nicht eine Zahl (zwei Werte, oder ein Dezimalkomma)</translation>
    </message>
    <message>
        <source>the area of the anode is not known</source>
        <translation>die Fläche der Anode ist nicht bekannt</translation>
    </message>
    <message>
        <source>the arrays of channel {name} differ in length</source>
        <translation>die Spalten von Kanal {name} sind verschieden lang</translation>
    </message>
    <message>
        <source>the board dropped {samples} samples</source>
        <translation>die Platine hat {samples} Messwerte verworfen</translation>
    </message>
    <message>
        <source>the board restarted</source>
        <translation>die Platine ist neu gestartet</translation>
    </message>
    <message>
        <source>the board says that it has no value</source>
        <translation>die Platine sagt, dass sie keinen Wert hat</translation>
    </message>
    <message>
        <source>the board&apos;s own clock, unwrapped; -1 where unknown</source>
        <translation>eigene Uhr der Platine, fortlaufend; -1, wo unbekannt</translation>
    </message>
    <message>
        <source>the board&apos;s time</source>
        <translation>die Zeit der Platine</translation>
    </message>
    <message>
        <source>the calibration cannot be kept in {path} ({error}); check space and permissions there</source>
        <translation>die Kalibrierung lässt sich nicht in {path} aufbewahren ({error}); dort Platz und Zugriffsrechte prüfen</translation>
    </message>
    <message>
        <source>the cell at {assumed_temperature_c} °C</source>
        <translation>die Zelle bei {assumed_temperature_c} °C</translation>
    </message>
    <message>
        <source>the cell at {temperature_c} °C</source>
        <translation>die Zelle bei {temperature_c} °C</translation>
    </message>
    <message>
        <source>the cell holds liquid water</source>
        <translation>die Zelle enthält flüssiges Wasser</translation>
    </message>
    <message>
        <source>the channel {name} is declared twice</source>
        <translation>der Kanal {name} ist zweimal erklärt</translation>
    </message>
    <message>
        <source>the check of the line {raw} is wrong or missing</source>
        <translation>die Prüfsumme der Zeile {raw} ist falsch oder fehlt</translation>
    </message>
    <message>
        <source>the column is in {unit}, not in V or mV. Choose another column.</source>
        <translation>die Spalte ist in {unit}, nicht in V oder mV. Eine andere Spalte wählen.</translation>
    </message>
    <message>
        <source>the column {name} is named twice; name each once</source>
        <translation>die Spalte {name} ist zweimal genannt; jede einmal nennen</translation>
    </message>
    <message>
        <source>the columns of the moments differ in length</source>
        <translation>die Spalten der Momente sind verschieden lang</translation>
    </message>
    <message>
        <source>the computer slept</source>
        <translation>der Computer hat geschlafen</translation>
    </message>
    <message>
        <source>the curve has another shape, for example a delay and then a ramp</source>
        <translation>die Kurve hat eine andere Form, zum Beispiel erst eine Verzögerung und dann eine Rampe</translation>
    </message>
    <message>
        <source>the display has two points, or a blank among its digits</source>
        <translation>die Anzeige hat zwei Dezimalpunkte, oder eine Leerstelle zwischen ihren Ziffern</translation>
    </message>
    <message>
        <source>the duration</source>
        <translation>die Dauer</translation>
    </message>
    <message>
        <source>the editing process ended with status {returncode}</source>
        <translation>der ändernde Prozess endete mit Status {returncode}</translation>
    </message>
    <message>
        <source>the electrodes go only a quarter deep into the fresh buffer</source>
        <translation>die Elektroden tauchen nur zu einem Viertel in den frischen Puffer</translation>
    </message>
    <message>
        <source>the electrodes touch for 20 s during growth</source>
        <translation>die Elektroden berühren sich 20 s lang während des Wachstums</translation>
    </message>
    <message>
        <source>the first disk has lost them, and memory had no room for them.</source>
        <translation>die erste Platte hat sie verloren, und im Speicher war kein Platz für sie.</translation>
    </message>
    <message>
        <source>the first line of its kind</source>
        <translation>die erste Zeile ihrer Art</translation>
    </message>
    <message>
        <source>the fit with uncertain abscissas did not converge</source>
        <translation>die Anpassung mit unsicheren Abszissen ist nicht konvergiert</translation>
    </message>
    <message>
        <source>the folder {folder} cannot be made ({strerror}); name a file with --out</source>
        <translation>der Ordner {folder} lässt sich nicht anlegen ({strerror}); mit --out eine Datei nennen</translation>
    </message>
    <message>
        <source>the folder {folder} cannot be read ({error}); choose another one</source>
        <translation>der Ordner {folder} ist nicht lesbar ({error}); einen anderen wählen</translation>
    </message>
    <message>
        <source>the folder {parent} is not there; make it first</source>
        <translation>der Ordner {parent} ist nicht da; ihn zuerst anlegen</translation>
    </message>
    <message>
        <source>the folder {parent} is not there; make it, or choose another</source>
        <translation>der Ordner {parent} ist nicht da; ihn anlegen oder einen anderen wählen</translation>
    </message>
    <message>
        <source>the header names {names}, which does not fit lines of {cells} columns. Its names and units are not used: numbers without a unit are taken for volts. Let the board name every column.</source>
        <translation>die Kopfzeile nennt {names}, was nicht zu Zeilen mit {cells} Spalten passt. Ihre Namen und Einheiten werden nicht verwendet: Zahlen ohne Einheit gelten als Volt. Die Platine jede Spalte nennen lassen.</translation>
    </message>
    <message>
        <source>the header now names the columns {denied}, and {before}: the recorded column may be another quantity, or in another unit. Restart the board, or end the run and begin a new one.</source>
        <translation>die Kopfzeile nennt jetzt die Spalten {denied}, und {before}: die aufgezeichnete Spalte ist vielleicht eine andere Größe, oder in anderer Einheit. Die Platine neu starten, oder die Messung beenden und eine neue beginnen.</translation>
    </message>
    <message>
        <source>the header {raw} names {names} columns where the lines have {columns}</source>
        <translation>die Kopfzeile {raw} nennt {names} Spalten, die Zeilen haben {columns}</translation>
    </message>
    <message>
        <source>the journal is not as a recorder writes it: in {name} {fault}</source>
        <translation>das Journal ist nicht, wie ein Aufzeichner es schreibt: in {name} {fault}</translation>
    </message>
    <message>
        <source>the journal is not as a recorder writes it: its times are beyond all bounds</source>
        <translation>das Journal ist nicht, wie ein Aufzeichner es schreibt: seine Zeiten liegen jenseits aller Grenzen</translation>
    </message>
    <message>
        <source>the known voltage must be a number</source>
        <translation>die bekannte Spannung muss eine Zahl sein</translation>
    </message>
    <message>
        <source>the known voltage {error}</source>
        <translation>die bekannte Spannung {error}</translation>
    </message>
    <message>
        <source>the label has {label} characters, {label_limit} are the most; shorten it, or tag a second moment</source>
        <translation>der Text hat {label} Zeichen, höchstens {label_limit} sind möglich; ihn kürzen, oder einen zweiten Moment festhalten</translation>
    </message>
    <message>
        <source>the label of resistor_changed must hold the ohms, for example 4.7k, not {label}</source>
        <translation>der Text von resistor_changed muss die Ohm enthalten, zum Beispiel 4.7k, nicht {label}</translation>
    </message>
    <message>
        <source>the label of temperature must hold degrees Celsius from 0 to 100, for example 22.5, not {label}</source>
        <translation>der Text von temperature muss Grad Celsius von 0 bis 100 enthalten, zum Beispiel 22.5, nicht {label}</translation>
    </message>
    <message>
        <source>the last ones are all alike</source>
        <translation>die letzten sind alle gleich</translation>
    </message>
    <message>
        <source>the line {raw} has other columns than those before</source>
        <translation>die Zeile {raw} hat andere Spalten als die davor</translation>
    </message>
    <message>
        <source>the line {raw} holds no reading</source>
        <translation>die Zeile {raw} enthält keinen Messwert</translation>
    </message>
    <message>
        <source>the line {value} holds no reading</source>
        <translation>die Zeile {value} enthält keinen Messwert</translation>
    </message>
    <message>
        <source>the line {value} may hold one number with a decimal comma, or two columns. If they are columns, add column=2 (or 1) to the address; if it is a decimal comma, let the board print a point.</source>
        <translation>die Zeile {value} kann eine Zahl mit Dezimalkomma enthalten, oder zwei Spalten. Sind es Spalten, column=2 (oder 1) an die Adresse anhängen; ist es ein Dezimalkomma, die Platine einen Punkt schreiben lassen.</translation>
    </message>
    <message>
        <source>the lines are in {units}, not in V or mV. Set the board to volts.</source>
        <translation>die Zeilen sind in {units}, nicht in V oder mV. Die Platine auf Volt einstellen.</translation>
    </message>
    <message>
        <source>the lines are now {other}, and were {usual}: a column may hold another quantity now. Let the board print as before, or end the run and begin a new one.</source>
        <translation>die Zeilen sind jetzt {other}, und waren {usual}: eine Spalte enthält jetzt vielleicht eine andere Größe. Die Platine wie zuvor schreiben lassen, oder die Messung beenden und eine neue beginnen.</translation>
    </message>
    <message>
        <source>the lines have no column {column} (they have {known}). Change column= in the address.</source>
        <translation>die Zeilen haben keine Spalte {column} (sie haben {known}). column= in der Adresse ändern.</translation>
    </message>
    <message>
        <source>the matrix</source>
        <translation>die Matrix</translation>
    </message>
    <message>
        <source>the meter answers that it has no number (9.91E37)</source>
        <translation>das Messgerät antwortet, dass es keine Zahl hat (9.91E37)</translation>
    </message>
    <message>
        <source>the meter jumped between a voltage and something else</source>
        <translation>das Messgerät sprang zwischen einer Spannung und etwas anderem</translation>
    </message>
    <message>
        <source>the meter shows hundredths of a volt</source>
        <translation>das Messgerät zeigt Hundertstel Volt</translation>
    </message>
    <message>
        <source>the meter shows whole millivolts</source>
        <translation>das Messgerät zeigt ganze Millivolt</translation>
    </message>
    <message>
        <source>the meter shows {gain} V of the other sign for each true volt: its leads are reversed, or the known voltage was given with the wrong sign. Swap the leads and begin again</source>
        <translation>das Messgerät zeigt {gain} V mit anderem Vorzeichen für jedes wahre Volt: seine Leitungen sind vertauscht, oder die bekannte Spannung hatte das falsche Vorzeichen. Die Leitungen tauschen und neu beginnen</translation>
    </message>
    <message>
        <source>the meter shows {mean_v} V; that is not the zero. Hold its two leads together, off the cell</source>
        <translation>das Messgerät zeigt {mean_v} V; das ist nicht der Nullpunkt. Seine beiden Leitungen zusammenhalten, weg von der Zelle</translation>
    </message>
    <message>
        <source>the meter would show {gain} V for each true volt; no sound meter is that far off. Was the known voltage really on its leads? A divider is undone by scale= in the address</source>
        <translation>das Messgerät zeigte {gain} V für jedes wahre Volt; so falsch ist kein heiles Messgerät. Lag die bekannte Spannung wirklich an seinen Leitungen? Ein Teiler wird durch scale= in der Adresse ausgeglichen</translation>
    </message>
    <message>
        <source>the meter would show {zero_v} V at 0 V; no sound meter is that far off. Hold its two leads together and take the zero again</source>
        <translation>das Messgerät zeigte {zero_v} V bei 0 V; so falsch ist kein heiles Messgerät. Seine beiden Leitungen zusammenhalten und den Nullpunkt neu aufnehmen</translation>
    </message>
    <message>
        <source>the meter&apos;s leads are swapped: every reading has the other sign</source>
        <translation>die Messleitungen sind vertauscht: jeder Messwert hat das andere Vorzeichen</translation>
    </message>
    <message>
        <source>the method holds the current by a large resistor, 100 ohm to 10 Mohm (give current_A instead for a supply that holds the current itself)</source>
        <translation>das Verfahren hält den Strom durch einen großen Vorwiderstand, 100 Ohm bis 10 MOhm (stattdessen current_A für ein Netzgerät, das den Strom selbst hält)</translation>
    </message>
    <message>
        <source>the method uses 0.1 microampere to 1 ampere</source>
        <translation>das Verfahren arbeitet mit 0,1 Mikroampere bis 1 Ampere</translation>
    </message>
    <message>
        <source>the moment at {time_s} has been changed in {name} since; look at it, and change it by hand</source>
        <translation>der Moment bei {time_s} wurde in {name} inzwischen geändert; bitte ansehen und von Hand ändern</translation>
    </message>
    <message>
        <source>the moment is not there any more</source>
        <translation>den Moment gibt es nicht mehr</translation>
    </message>
    <message>
        <source>the moment says that it was edited {revision} times, which no hand can: its recording is damaged, or made to harm; add another moment in its place</source>
        <translation>der Moment soll {revision}-mal geändert worden sein, was keine Hand kann: Seine Aufzeichnung ist beschädigt oder soll schaden; fügen Sie an seiner Stelle einen anderen Moment hinzu</translation>
    </message>
    <message>
        <source>the name is taken</source>
        <translation>der Name ist vergeben</translation>
    </message>
    <message>
        <source>the noise is one-sided (large bubbles?)</source>
        <translation>das Rauschen ist einseitig (große Blasen?)</translation>
    </message>
    <message>
        <source>the noise lasts up to {lasts_s} s</source>
        <translation>das Rauschen dauert bis zu {lasts_s} s</translation>
    </message>
    <message>
        <source>the numbers are whole: counts of a converter, not volts. Add scale= (volts per count) to the address, for example scale=0.0048828125.</source>
        <translation>die Zahlen sind ganz: Zählwerte eines Wandlers, keine Volt. scale= (Volt pro Zählwert) an die Adresse anhängen, zum Beispiel scale=0.0048828125.</translation>
    </message>
    <message>
        <source>the ohms of the changed resistor</source>
        <translation>die Ohm des gewechselten Widerstands</translation>
    </message>
    <message>
        <source>the order of the bits</source>
        <translation>die Reihenfolge der Bits</translation>
    </message>
    <message>
        <source>the output</source>
        <translation>die Ausgabe</translation>
    </message>
    <message>
        <source>the picture is not there any more</source>
        <translation>das Bild gibt es nicht mehr</translation>
    </message>
    <message>
        <source>the pictures of a run may have {together_limit_bytes} MB together while it goes on; attach this one once the run is saved</source>
        <translation>die Bilder einer Messung dürfen zusammen {together_limit_bytes} MB haben, solange sie läuft; dieses anhängen, wenn die Messung gespeichert ist</translation>
    </message>
    <message>
        <source>the port was let go of: its instrument is not waited for any longer</source>
        <translation>der Anschluss wurde losgelassen: Auf sein Messgerät wird nicht mehr gewartet</translation>
    </message>
    <message>
        <source>the program stood still</source>
        <translation>das Programm stand still</translation>
    </message>
    <message>
        <source>the readings lie between those of a cell and of the open stack. Check the contacts, the level of the buffer, and the stack voltage in the bench file</source>
        <translation>die Messwerte liegen zwischen denen einer Zelle und denen des offenen Batteriestapels. Die Kontakte, den Stand des Puffers und die Stapelspannung in der Aufbau-Datei prüfen</translation>
    </message>
    <message>
        <source>the readings stay at the open stack. Put the buffer in, check that both leads are on</source>
        <translation>die Messwerte bleiben beim offenen Batteriestapel. Den Puffer einfüllen, prüfen, ob beide Leitungen dran sind</translation>
    </message>
    <message>
        <source>the readings stay below what splits water. Check the supply, and that the readings are in volts</source>
        <translation>die Messwerte bleiben unter dem, was Wasser spaltet. Die Stromversorgung prüfen, und ob die Messwerte in Volt sind</translation>
    </message>
    <message>
        <source>the readings stay near 0 V. The supply was off, the electrodes touched, or the readings are not in volts</source>
        <translation>die Messwerte bleiben nahe 0 V. Die Stromversorgung war aus, die Elektroden berührten sich, oder die Messwerte sind nicht in Volt</translation>
    </message>
    <message>
        <source>the readings wander by {values} V; hold the leads firmly on a steady voltage</source>
        <translation>die Messwerte wandern um {values} V; die Leitungen fest an eine ruhige Spannung halten</translation>
    </message>
    <message>
        <source>the recorder could not keep up</source>
        <translation>der Aufzeichner kam nicht mit</translation>
    </message>
    <message>
        <source>the recording is large; copying it would take long</source>
        <translation>die Aufzeichnung ist groß; sie zu kopieren würde lange dauern</translation>
    </message>
    <message>
        <source>the recording or its folder may not be written</source>
        <translation>die Aufzeichnung oder ihr Ordner ist schreibgeschützt</translation>
    </message>
    <message>
        <source>the run has ended</source>
        <translation>die Messung ist beendet</translation>
    </message>
    <message>
        <source>the run has ended; change the moment in its recording</source>
        <translation>die Messung ist beendet; den Moment in ihrer Aufzeichnung ändern</translation>
    </message>
    <message>
        <source>the run has not begun</source>
        <translation>die Messung hat noch nicht begonnen</translation>
    </message>
    <message>
        <source>the run has not begun; tag the moment once readings come</source>
        <translation>die Messung hat noch nicht begonnen; den Moment festhalten, sobald Messwerte kommen</translation>
    </message>
    <message>
        <source>the run is not finished</source>
        <translation>die Messung ist nicht abgeschlossen</translation>
    </message>
    <message>
        <source>the run was never started; there is nothing to save</source>
        <translation>die Messung wurde nie begonnen; es gibt nichts zu speichern</translation>
    </message>
    <message>
        <source>the salt comes 30 s after the buffer, before the voltage has settled</source>
        <translation>das Salz kommt 30 s nach dem Puffer, bevor die Spannung eingeschwungen ist</translation>
    </message>
    <message>
        <source>the second copy must be in another folder than {parent}</source>
        <translation>die zweite Kopie muss in einem anderen Ordner liegen als {parent}</translation>
    </message>
    <message>
        <source>the signs for AC and DC</source>
        <translation>die Zeichen für Wechsel- und Gleichspannung</translation>
    </message>
    <message>
        <source>the simulated cell found no operating point</source>
        <translation>die simulierte Zelle fand keinen Arbeitspunkt</translation>
    </message>
    <message>
        <source>the simulated cell has no fault {name}{hint} (known: {faults})</source>
        <translation>die simulierte Zelle kennt keine Störung {name}{hint} (bekannt: {faults})</translation>
    </message>
    <message>
        <source>the simulated cell has no lesson {name}{hint} (known: {lessons})</source>
        <translation>die simulierte Zelle kennt keine Stunde {name}{hint} (bekannt: {lessons})</translation>
    </message>
    <message>
        <source>the simulated cell has no noise {name}{hint} (known: {noises})</source>
        <translation>die simulierte Zelle kennt kein Rauschen {name}{hint} (bekannt: {noises})</translation>
    </message>
    <message>
        <source>the simulated cell holds liquid water of 0 to 100 degC, not {temperature_c}</source>
        <translation>die simulierte Zelle enthält flüssiges Wasser von 0 bis 100 degC, nicht {temperature_c}</translation>
    </message>
    <message>
        <source>the size of the noise is not known</source>
        <translation>die Größe des Rauschens ist nicht bekannt</translation>
    </message>
    <message>
        <source>the source is gone for 20 s during growth</source>
        <translation>die Quelle ist 20 s lang während des Wachstums weg</translation>
    </message>
    <message>
        <source>the source sends nothing for 20 s during growth</source>
        <translation>die Quelle sendet 20 s lang während des Wachstums nichts</translation>
    </message>
    <message>
        <source>the speed of {baud} baud may be wrong (add baud= to the address), or </source>
        <translation>die Geschwindigkeit von {baud} Baud ist vielleicht falsch (baud= an die Adresse anhängen), oder </translation>
    </message>
    <message>
        <source>the stack has only {stack_voltage_v} V, so no current flows</source>
        <translation>der Stapel hat nur {stack_voltage_v} V, es fließt also kein Strom</translation>
    </message>
    <message>
        <source>the supply is off for 60 s during growth</source>
        <translation>die Stromversorgung ist 60 s lang während des Wachstums aus</translation>
    </message>
    <message>
        <source>the time goes back at sample {number}</source>
        <translation>die Zeit läuft bei Messwert {number} rückwärts</translation>
    </message>
    <message>
        <source>the time of an anchor</source>
        <translation>die Zeit eines Ankers</translation>
    </message>
    <message>
        <source>the time of sample {number} cannot be read ({error})</source>
        <translation>die Zeit von Messwert {number} ist nicht lesbar ({error})</translation>
    </message>
    <message>
        <source>the times go backwards</source>
        <translation>die Zeiten laufen rückwärts</translation>
    </message>
    <message>
        <source>the times go beyond all bounds</source>
        <translation>die Zeiten liegen jenseits aller Grenzen</translation>
    </message>
    <message>
        <source>the two voltages do not belong to the same current</source>
        <translation>die beiden Spannungen gehören nicht zum selben Strom</translation>
    </message>
    <message>
        <source>the voltage fell by less than {least_fall_deviations} times the noise</source>
        <translation>die Spannung fiel um weniger als {least_fall_deviations}-mal das Rauschen</translation>
    </message>
    <message>
        <source>the voltage rose</source>
        <translation>die Spannung stieg</translation>
    </message>
    <message>
        <source>the widest series has 20 % (IEC 60063)</source>
        <translation>die gröbste Reihe hat 20 % (IEC 60063)</translation>
    </message>
    <message>
        <source>the window is too short or drifting: its readings are worth only {effective_samples} independent ones, and {fewest_effective} are needed</source>
        <translation>der Abschnitt ist zu kurz oder driftet: seine Messwerte zählen nur als {effective_samples} unabhängige, und {fewest_effective} sind nötig</translation>
    </message>
    <message>
        <source>there are three to six bands</source>
        <translation>es sind drei bis sechs Ringe</translation>
    </message>
    <message>
        <source>there are {shape} sensitivities</source>
        <translation>es sind {shape} Empfindlichkeiten</translation>
    </message>
    <message>
        <source>there is a journal of that name</source>
        <translation>es gibt ein Journal dieses Namens</translation>
    </message>
    <message>
        <source>there is no fault {name}{hint} (known: {value})</source>
        <translation>es gibt keine Störung {name}{hint} (bekannt: {value})</translation>
    </message>
    <message>
        <source>there is no kind of moment {kind}{hint} (known: {kinds})</source>
        <translation>es gibt keine Art von Moment {kind}{hint} (bekannt: {kinds})</translation>
    </message>
    <message>
        <source>there is no moment with the id {moment_id}</source>
        <translation>es gibt keinen Moment mit der Kennung {moment_id}</translation>
    </message>
    <message>
        <source>there is no size of picture {size}; known: {sizes}</source>
        <translation>es gibt keine Bildgröße {size}; bekannt: {sizes}</translation>
    </message>
    <message>
        <source>there is nothing to compare</source>
        <translation>es gibt nichts zu vergleichen</translation>
    </message>
    <message>
        <source>there must be more than zero</source>
        <translation>es müssen mehr als null sein</translation>
    </message>
    <message>
        <source>there must be one for each sample</source>
        <translation>es muss für jeden Messwert einen geben</translation>
    </message>
    <message>
        <source>they do not determine {shape} parameters</source>
        <translation>sie bestimmen keine {shape} Parameter</translation>
    </message>
    <message>
        <source>they do not differ</source>
        <translation>sie unterscheiden sich nicht</translation>
    </message>
    <message>
        <source>they hold fewer than two times</source>
        <translation>sie enthalten weniger als zwei Zeiten</translation>
    </message>
    <message>
        <source>they must be alike</source>
        <translation>sie müssen gleich sein</translation>
    </message>
    <message>
        <source>they read zero</source>
        <translation>sie ergeben null</translation>
    </message>
    <message>
        <source>this bench</source>
        <translation>dieser Aufbau</translation>
    </message>
    <message>
        <source>those of the currents were given</source>
        <translation>die der Ströme wurden angegeben</translation>
    </message>
    <message>
        <source>three digits cannot state it</source>
        <translation>drei Stellen reichen dafür nicht</translation>
    </message>
    <message>
        <source>time must not run backwards</source>
        <translation>die Zeit darf nicht rückwärts laufen</translation>
    </message>
    <message>
        <source>time since start (s)</source>
        <translation>Zeit seit dem Beginn (s)</translation>
    </message>
    <message>
        <source>time, value and quality of channel {name} differ in length</source>
        <translation>Zeit, Wert und Güte von Kanal {name} sind verschieden lang</translation>
    </message>
    <message>
        <source>times as in the text file</source>
        <translation>Zeiten wie in der Textdatei</translation>
    </message>
    <message>
        <source>times as in the text file; the start time is the text file&apos;s own date</source>
        <translation>Zeiten wie in der Textdatei; als Beginn gilt das Datum der Textdatei selbst</translation>
    </message>
    <message>
        <source>times in s</source>
        <translation>Zeiten in s</translation>
    </message>
    <message>
        <source>times of the readings</source>
        <translation>Zeiten der Messwerte</translation>
    </message>
    <message>
        <source>times of the replayed recording</source>
        <translation>Zeiten der abgespielten Aufzeichnung</translation>
    </message>
    <message>
        <source>times of the window</source>
        <translation>Zeiten des Abschnitts</translation>
    </message>
    <message>
        <source>times {shape}, current {shape_2}</source>
        <translation>Zeiten {shape}, Strom {shape_2}</translation>
    </message>
    <message>
        <source>title = {title}</source>
        <translation>title = {title}</translation>
    </message>
    <message>
        <source>tolerance band</source>
        <translation>Toleranzring</translation>
    </message>
    <message>
        <source>tolerance in percent</source>
        <translation>Toleranz in Prozent</translation>
    </message>
    <message>
        <source>too few for the settling window</source>
        <translation>zu wenige für den Einschwingabschnitt</translation>
    </message>
    <message>
        <source>too few, or one is not a finite number</source>
        <translation>zu wenige, oder einer ist keine endliche Zahl</translation>
    </message>
    <message>
        <source>too large to be shown without the window part</source>
        <translation>zu groß, um ohne den Fensterteil gezeigt zu werden</translation>
    </message>
    <message>
        <source>touching electrodes would put {touching_power_w} W into it</source>
        <translation>sich berührende Elektroden brächten {touching_power_w} W hinein</translation>
    </message>
    <message>
        <source>true or false</source>
        <translation>wahr oder falsch</translation>
    </message>
    <message>
        <source>turn the resistor round and read again</source>
        <translation>den Widerstand umdrehen und noch einmal lesen</translation>
    </message>
    <message>
        <source>turns in a minute</source>
        <translation>Umdrehungen pro Minute</translation>
    </message>
    <message>
        <source>two channels are called {name}; give one of the sources another channel=, and its role=</source>
        <translation>zwei Kanäle heißen {name}; einer der Quellen ein anderes channel= und ihr role= geben</translation>
    </message>
    <message>
        <source>two exponentials</source>
        <translation>zwei Exponentialfunktionen</translation>
    </message>
    <message>
        <source>two of the moments have one id</source>
        <translation>zwei der Momente haben dieselbe Kennung</translation>
    </message>
    <message>
        <source>two values only differ</source>
        <translation>zwei Werte unterscheiden sich nur</translation>
    </message>
    <message>
        <source>type first what the display shows, for example 2.251 or 2251 mV</source>
        <translation>zuerst eintippen, was die Anzeige zeigt, zum Beispiel 2.251 oder 2251 mV</translation>
    </message>
    <message>
        <source>uncertainties of the voltages</source>
        <translation>Unsicherheiten der Spannungen</translation>
    </message>
    <message>
        <source>until settled</source>
        <translation>bis eingeschwungen</translation>
    </message>
    <message>
        <source>use a stack of more than {open_enter_share} V</source>
        <translation>einen Stapel von mehr als {open_enter_share} V nehmen</translation>
    </message>
    <message>
        <source>values for an outlier test</source>
        <translation>Werte für einen Ausreißertest</translation>
    </message>
    <message>
        <source>values of the chart</source>
        <translation>Werte der Regelkarte</translation>
    </message>
    <message>
        <source>values of the window</source>
        <translation>Werte des Abschnitts</translation>
    </message>
    <message>
        <source>version {version}</source>
        <translation>Version {version}</translation>
    </message>
    <message>
        <source>volt per minute</source>
        <translation>Volt pro Minute</translation>
    </message>
    <message>
        <source>voltage after in V</source>
        <translation>Spannung nachher in V</translation>
    </message>
    <message>
        <source>voltage before in V</source>
        <translation>Spannung vorher in V</translation>
    </message>
    <message>
        <source>voltage in V</source>
        <translation>Spannung in V</translation>
    </message>
    <message>
        <source>voltage of no overpotential in V</source>
        <translation>Spannung ohne Überspannung in V</translation>
    </message>
    <message>
        <source>voltage of one cell in V</source>
        <translation>Spannung einer Zelle in V</translation>
    </message>
    <message>
        <source>voltage saved in V</source>
        <translation>eingesparte Spannung in V</translation>
    </message>
    <message>
        <source>volume of gas in mL</source>
        <translation>Gasvolumen in mL</translation>
    </message>
    <message>
        <source>water boils at {temperature_c} degC and {pressure_pa} Pa</source>
        <translation>Wasser siedet bei {temperature_c} degC und {pressure_pa} Pa</translation>
    </message>
    <message>
        <source>water column in mm</source>
        <translation>Wassersäule in mm</translation>
    </message>
    <message>
        <source>whatever sends by itself, recognised by listening only</source>
        <translation>was von selbst sendet, nur durch Abhören erkannt</translation>
    </message>
    <message>
        <source>whole numbers</source>
        <translation>ganze Zahlen</translation>
    </message>
    <message>
        <source>write [[steps]] before each step</source>
        <translation>vor jeden Schritt [[steps]] schreiben</translation>
    </message>
    <message>
        <source>write [{section}] on a line of its own, its keys below</source>
        <translation>[{section}] in eine eigene Zeile schreiben, die Schlüssel darunter</translation>
    </message>
    <message>
        <source>write for example &quot;90s&quot;, &quot;15m&quot; or &quot;{until_settled}&quot;</source>
        <translation>zum Beispiel &quot;90s&quot;, &quot;15m&quot; oder &quot;{until_settled}&quot; schreiben</translation>
    </message>
    <message>
        <source>write for example kind = &quot;salt_added&quot;</source>
        <translation>zum Beispiel kind = &quot;salt_added&quot; schreiben</translation>
    </message>
    <message>
        <source>write for example {whole}</source>
        <translation>zum Beispiel {whole} schreiben</translation>
    </message>
    <message>
        <source>write it without quotes or unit</source>
        <translation>ohne Anführungszeichen und Einheit schreiben</translation>
    </message>
    <message>
        <source>zero or more</source>
        <translation>null oder mehr</translation>
    </message>
    <message>
        <source>{address} asks for {wanted}, but the board samples input {there}. Change the address (column= and its lists), or the board&apos;s program.</source>
        <translation>{address} verlangt {wanted}, aber die Platine misst Eingang {there}. Die Adresse (column= und ihre Listen) oder das Programm der Platine ändern.</translation>
    </message>
    <message>
        <source>{address} is back{where}.</source>
        <translation>{address} ist wieder da{where}.</translation>
    </message>
    <message>
        <source>{address} is not open. Open it first.</source>
        <translation>{address} ist nicht offen. Erst öffnen.</translation>
    </message>
    <message>
        <source>{address}: a board has at most {inputs} inputs; {entries} are listed</source>
        <translation>{address}: eine Platine hat höchstens {inputs} Eingänge; {entries} sind aufgezählt</translation>
    </message>
    <message>
        <source>{address}: a {kind} meter has no column {column}; write {known}, or leave it out</source>
        <translation>{address}: ein Messgerät der Art {kind} hat keine Spalte {column}; {known} schreiben, oder weglassen</translation>
    </message>
    <message>
        <source>{address}: channel={name} cannot name a channel; use small letters, digits and _, beginning with a letter, for example channel=anode</source>
        <translation>{address}: channel={name} kann keinen Kanal benennen; Kleinbuchstaben, Ziffern und _ verwenden, mit einem Buchstaben am Anfang, zum Beispiel channel=anode</translation>
    </message>
    <message>
        <source>{address}: column={column} does not list columns; write for example column=2 or column=2,3 (each once)</source>
        <translation>{address}: column={column} nennt keine Spalten; zum Beispiel column=2 oder column=2,3 schreiben (jede einmal)</translation>
    </message>
    <message>
        <source>{address}: column={value} does not list inputs; write for example column=0 or column=0,2 (0 to {inputs}, each once)</source>
        <translation>{address}: column={value} nennt keine Eingänge; zum Beispiel column=0 oder column=0,2 schreiben (0 bis {inputs}, jeden einmal)</translation>
    </message>
    <message>
        <source>{address}: internal fault in the driver: {error}</source>
        <translation>{address}: innerer Fehler im Treiber: {error}</translation>
    </message>
    <message>
        <source>{address}: pictures attached to moments are not replayed ({pictures} of them); they stay in the recording</source>
        <translation>{address}: Bilder von Zeitpunkten werden nicht wiedergegeben ({pictures} davon); sie bleiben in der Aufzeichnung</translation>
    </message>
    <message>
        <source>{address}: role, scale and offset belong to one channel, and the recording has several; add channel= and one of {names}</source>
        <translation>{address}: role, scale und offset gehören zu einem Kanal, und die Aufzeichnung hat mehrere; channel= und einen von {names} hinzufügen</translation>
    </message>
    <message>
        <source>{address}: scale=0 would make every reading 0; leave it out or write a factor</source>
        <translation>{address}: scale=0 machte jeden Messwert zu 0; weglassen oder einen Faktor schreiben</translation>
    </message>
    <message>
        <source>{address}: the file has changed its channels since the run began</source>
        <translation>{address}: die Datei hat seit Beginn der Messung ihre Kanäle geändert</translation>
    </message>
    <message>
        <source>{address}: the recording has no channel {wanted} (it has {names})</source>
        <translation>{address}: die Aufzeichnung hat keinen Kanal {wanted} (sie hat {names})</translation>
    </message>
    <message>
        <source>{address}: the recording is damaged: {error}; see galvanote check {port}</source>
        <translation>{address}: die Aufzeichnung ist beschädigt: {error}; siehe galvanote check {port}</translation>
    </message>
    <message>
        <source>{address}: the recording is damaged: {error}; see galvanote check {port}. Opened again, it goes on behind the damage when the run has got there</source>
        <translation>{address}: die Aufzeichnung ist beschädigt: {error}; siehe galvanote check {port}. Neu geöffnet, geht sie hinter der Beschädigung weiter, sobald die Messung dort ankommt</translation>
    </message>
    <message>
        <source>{address}: the recording is not open; open it (again) to read</source>
        <translation>{address}: die Aufzeichnung ist nicht offen; zum Lesen (wieder) öffnen</translation>
    </message>
    <message>
        <source>{address}: the recording is over</source>
        <translation>{address}: die Aufzeichnung ist zu Ende</translation>
    </message>
    <message>
        <source>{address}: the simulated cable is still out; wait until {end_s} s of the run (now {now_s} s)</source>
        <translation>{address}: das simulierte Kabel ist noch gezogen; bis {end_s} s der Messung warten (jetzt {now_s} s)</translation>
    </message>
    <message>
        <source>{address}: the simulated cable was pulled at {begin_s} s of the run; open the source again after {end_s} s</source>
        <translation>{address}: das simulierte Kabel wurde bei {begin_s} s der Messung gezogen; die Quelle nach {end_s} s wieder öffnen</translation>
    </message>
    <message>
        <source>{address}: the simulated cell is not open; open it (again) to read</source>
        <translation>{address}: die simulierte Zelle ist nicht offen; zum Lesen (wieder) öffnen</translation>
    </message>
    <message>
        <source>{address}: the simulated lesson is over</source>
        <translation>{address}: die simulierte Stunde ist zu Ende</translation>
    </message>
    <message>
        <source>{address}: there is no column {impossible}; columns are counted from 1, for example column=2, or called by their names</source>
        <translation>{address}: es gibt keine Spalte {impossible}; Spalten werden ab 1 gezählt, zum Beispiel column=2, oder bei ihren Namen genannt</translation>
    </message>
    <message>
        <source>{address}: there is no kind of source {kind}{hint} (known: {kinds})</source>
        <translation>{address}: es gibt keine Art von Quelle {kind}{hint} (bekannt: {kinds})</translation>
    </message>
    <message>
        <source>{address}: there is no role {role}{hint} (known: {roles})</source>
        <translation>{address}: es gibt keine Rolle {role}{hint} (bekannt: {roles})</translation>
    </message>
    <message>
        <source>{address}: two inputs are called {name}; give each a name of its own, for example channel=cell,shunt</source>
        <translation>{address}: zwei Eingänge heißen {name}; jedem einen eigenen Namen geben, zum Beispiel channel=cell,shunt</translation>
    </message>
    <message>
        <source>{address}: {key} lists {entries} entries, but column names {places}</source>
        <translation>{address}: {key} zählt {entries} Einträge auf, aber column nennt {places}</translation>
    </message>
    <message>
        <source>{address}: {key}={entries} is a list of two; for one number with decimals write a point: {key}={entries_2}</source>
        <translation>{address}: {key}={entries} ist eine Liste von zweien; für eine Zahl mit Nachkommastellen einen Punkt schreiben: {key}={entries_2}</translation>
    </message>
    <message>
        <source>{amount} more needed than before</source>
        <translation>{amount} mehr nötig als vorher</translation>
    </message>
    <message>
        <source>{amount} saved</source>
        <translation>{amount} eingespart</translation>
    </message>
    <message>
        <source>{attachment_id} {seen} of the pictures; galvanote moment &apos;{path}&apos; list shows their ids</source>
        <translation>{attachment_id} {seen} der Bilder; galvanote moment &apos;{path}&apos; list zeigt ihre Kennungen</translation>
    </message>
    <message>
        <source>{begun}: a run is just being started</source>
        <translation>{begun}: eine Messung wird gerade begonnen</translation>
    </message>
    <message>
        <source>{begun}: removed; that run was cut off before it began to record.</source>
        <translation>{begun}: entfernt; diese Messung wurde unterbrochen, bevor sie aufzuzeichnen begann.</translation>
    </message>
    <message>
        <source>{cell} is whole, where the numbers before had decimals</source>
        <translation>{cell} ist ganzzahlig, wo die Zahlen davor Nachkommastellen hatten</translation>
    </message>
    <message>
        <source>{columns} columns</source>
        <translation>{columns} Spalten</translation>
    </message>
    <message>
        <source>{count} bytes arrived, but too few of them make sense. Is its speed an unusual one? Name kind and speed in the address, for example text:PORT?baud=57600</source>
        <translation>{count} Bytes sind gekommen, aber zu wenige ergeben einen Sinn. Ist die Baudrate ungewöhnlich? Art und Baudrate in der Adresse nennen, zum Beispiel text:PORT?baud=57600</translation>
    </message>
    <message>
        <source>{count} readings lie</source>
        <translation>{count} Messwerte liegen</translation>
    </message>
    <message>
        <source>{entries} inputs</source>
        <translation>{entries} Eingänge</translation>
    </message>
    <message>
        <source>{file_name} is no picture that can be attached; give a PNG, JPEG or WebP file</source>
        <translation>{file_name} ist kein Bild, das sich anhängen lässt; eine PNG-, JPEG- oder WebP-Datei nehmen</translation>
    </message>
    <message>
        <source>{file} counts as a blank: {kind_reason}.</source>
        <translation>{file} zählt als Blindversuch: {kind_reason}.</translation>
    </message>
    <message>
        <source>{file} counts as a run with salt: {kind_reason}.</source>
        <translation>{file} zählt als Messung mit Salz: {kind_reason}.</translation>
    </message>
    <message>
        <source>{file} is not in the statistics: {reason}.</source>
        <translation>{file} ist nicht in der Statistik: {reason}.</translation>
    </message>
    <message>
        <source>{file} lies off the others (Grubbs&apos; test: {statistic}, by chance above {critical} in {percent} % of such sets). Look for a cause; it stays in the statistics.</source>
        <translation>{file} weicht von den anderen ab (Grubbs-Test: {statistic}, zufällig über {critical} in {percent} % solcher Gruppen). Nach einer Ursache suchen; sie bleibt in der Statistik.</translation>
    </message>
    <message>
        <source>{first} after {first_2} (sample {first_3})</source>
        <translation>{first} nach {first_2} (Messwert {first_3})</translation>
    </message>
    <message>
        <source>{found}{no_break}times, {length} together</source>
        <translation>{found}{no_break}Mal, zusammen {length}</translation>
    </message>
    <message>
        <source>{identity} on {port} does not answer {query}. Is the meter on, is its remote interface set to {baud} baud 8N1, and is the cable the right one (crossed or straight)?</source>
        <translation>{identity} an {port} antwortet nicht auf {query}. Ist das Messgerät an, steht seine Fernsteuerung auf {baud} Baud 8N1, und ist das Kabel das richtige (gekreuzt oder gerade)?</translation>
    </message>
    <message>
        <source>{identity} on {port} has given no reading yet and is asked once more ({query}); a slow meter may take 10 s. Is it on DC volts?</source>
        <translation>{identity} an {port} hat noch keinen Messwert gegeben und wird noch einmal gefragt ({query}); ein langsames Messgerät braucht bis zu 10 s. Steht es auf Gleichspannung?</translation>
    </message>
    <message>
        <source>{identity} on {port} was asked for a reading ({query}) and may take some seconds.</source>
        <translation>{identity} an {port} wurde um einen Messwert gebeten ({query}); das kann einige Sekunden dauern.</translation>
    </message>
    <message>
        <source>{journal} holds no reading that was ever acknowledged; it is left where it is.</source>
        <translation>{journal} enthält keinen Messwert, der je bestätigt wurde; es bleibt, wo es ist.</translation>
    </message>
    <message>
        <source>{journal} holds no run: its head is missing or damaged</source>
        <translation>{journal} enthält keine Messung: sein Kopf fehlt oder ist beschädigt</translation>
    </message>
    <message>
        <source>{journal} holds readings of a channel that it does not describe</source>
        <translation>{journal} enthält Messwerte eines Kanals, den es nicht beschreibt</translation>
    </message>
    <message>
        <source>{journal} is a folder, a pipe or a device, no journal; it is left as it is</source>
        <translation>{journal} ist ein Ordner, eine Pipe oder ein Gerät, kein Journal; es bleibt, wie es ist</translation>
    </message>
    <message>
        <source>{journal} is still being recorded, or being recovered; end that first</source>
        <translation>{journal} wird noch aufgezeichnet oder gerade wiederhergestellt; das zuerst beenden</translation>
    </message>
    <message>
        <source>{key} may not hold the sign &amp;; leave it out</source>
        <translation>{key} darf das Zeichen &amp; nicht enthalten; weglassen</translation>
    </message>
    <message>
        <source>{kind} at adapter {adapter_serial}</source>
        <translation>{kind} am Adapter {adapter_serial}</translation>
    </message>
    <message>
        <source>{kind} named {name}</source>
        <translation>{kind} mit Namen {name}</translation>
    </message>
    <message>
        <source>{live}: the live file is thrown away at the end; name another than the recording</source>
        <translation>{live}: die Mitlesedatei wird am Ende weggeworfen; eine andere nennen als die Aufzeichnung</translation>
    </message>
    <message>
        <source>{lost} readings could not be written: the disk stayed full.</source>
        <translation>{lost} Messwerte ließen sich nicht schreiben: die Platte blieb voll.</translation>
    </message>
    <message>
        <source>{missing} is missing</source>
        <translation>{missing} fehlt</translation>
    </message>
    <message>
        <source>{missing} readings could not be copied: {why}</source>
        <translation>{missing} Messwerte ließen sich nicht kopieren: {why}</translation>
    </message>
    <message>
        <source>{moment_id} {seen} of the moments; galvanote moment &apos;{path}&apos; list shows their ids</source>
        <translation>{moment_id} {seen} der Momente; galvanote moment &apos;{path}&apos; list zeigt ihre Kennungen</translation>
    </message>
    <message>
        <source>{names} before</source>
        <translation>{names} vorher</translation>
    </message>
    <message>
        <source>{name} came out negative</source>
        <translation>{name} wurde negativ</translation>
    </message>
    <message>
        <source>{name} claims {size} values in a file of {file_bytes} bytes</source>
        <translation>{name} gibt {size} Werte in einer Datei von {file_bytes} Bytes an</translation>
    </message>
    <message>
        <source>{name} could not be written ({error}); check free space and permissions</source>
        <translation>{name} ließ sich nicht schreiben ({error}); freien Platz und Zugriffsrechte prüfen</translation>
    </message>
    <message>
        <source>{name} could not be written ({told}). What was recorded is safe in {journal}; later: galvanote recover &apos;{journal}&apos;</source>
        <translation>{name} ließ sich nicht schreiben ({told}). Was aufgezeichnet wurde, ist sicher in {journal}; später: galvanote recover &apos;{journal}&apos;</translation>
    </message>
    <message>
        <source>{name} could not be written yet ({reason}). What was recorded is safe in {journal}. Make room or check the folder, then: galvanote recover &apos;{journal}&apos;</source>
        <translation>{name} ließ sich noch nicht schreiben ({reason}). Was aufgezeichnet wurde, ist sicher in {journal}. Platz schaffen oder den Ordner prüfen, dann: galvanote recover &apos;{journal}&apos;</translation>
    </message>
    <message>
        <source>{name} could not be written: its journal is no longer there. If {journal} or its folder was moved or renamed, look for it there, and: galvanote recover FOLDER. If it was removed, what it held is lost</source>
        <translation>{name} ließ sich nicht schreiben: das Journal ist nicht mehr da. Wurde {journal} oder sein Ordner verschoben oder umbenannt, dort suchen, und: galvanote recover ORDNER. Wurde es entfernt, ist verloren, was es enthielt</translation>
    </message>
    <message>
        <source>{name} did not end in time</source>
        <translation>{name} ist nicht rechtzeitig zu Ende gekommen</translation>
    </message>
    <message>
        <source>{name} has a name that no picture has</source>
        <translation>{name} hat einen Namen, den kein Bild hat</translation>
    </message>
    <message>
        <source>{name} has a unit that cannot be one</source>
        <translation>{name} hat eine Einheit, die keine sein kann</translation>
    </message>
    <message>
        <source>{name} has an attribute with a name that no recording has</source>
        <translation>{name} hat ein Attribut mit einem Namen, den keine Aufzeichnung hat</translation>
    </message>
    <message>
        <source>{name} has chunks that are too large</source>
        <translation>{name} hat zu große Teilstücke</translation>
    </message>
    <message>
        <source>{name} holds a name that no recording has</source>
        <translation>{name} enthält einen Namen, den keine Aufzeichnung hat</translation>
    </message>
    <message>
        <source>{name} holds neither numbers nor texts</source>
        <translation>{name} enthält weder Zahlen noch Texte</translation>
    </message>
    <message>
        <source>{name} holds no numbers</source>
        <translation>{name} enthält keine Zahlen</translation>
    </message>
    <message>
        <source>{name} holds nothing</source>
        <translation>{name} enthält nichts</translation>
    </message>
    <message>
        <source>{name} is far longer than the data</source>
        <translation>{name} ist viel länger als die Daten</translation>
    </message>
    <message>
        <source>{name} is no column of samples</source>
        <translation>{name} ist keine Spalte von Messwerten</translation>
    </message>
    <message>
        <source>{name} is no picture</source>
        <translation>{name} ist kein Bild</translation>
    </message>
    <message>
        <source>{name} is no voltage; only voltages are calibrated here</source>
        <translation>{name} ist keine Spannung; nur Spannungen werden hier kalibriert</translation>
    </message>
    <message>
        <source>{name} is not determined: {value} with a standard uncertainty of {deviation}</source>
        <translation>{name} ist nicht bestimmt: {value} mit einer Standardunsicherheit von {deviation}</translation>
    </message>
    <message>
        <source>{name} is not the picture that was exported (SHA-256 differs); use another copy of it, or leave its checksum empty</source>
        <translation>{name} ist nicht das exportierte Bild (SHA-256 weicht ab); nehmen Sie eine andere Kopie davon, oder lassen Sie die Prüfsumme leer</translation>
    </message>
    <message>
        <source>{name} is there under two names</source>
        <translation>{name} ist unter zwei Namen da</translation>
    </message>
    <message>
        <source>{name} keeps its data in another file</source>
        <translation>{name} hält seine Daten in einer anderen Datei</translation>
    </message>
    <message>
        <source>{name} needs a plug-in to be read</source>
        <translation>{name} braucht zum Lesen eine Erweiterung</translation>
    </message>
    <message>
        <source>{name}, line 1: brackets are nested too deeply; write plain tables</source>
        <translation>{name}, Zeile 1: Klammern sind zu tief geschachtelt; einfache Tabellen schreiben</translation>
    </message>
    <message>
        <source>{name}, line {line}: a number has thousands of digits; write a shorter one</source>
        <translation>{name}, Zeile {line}: eine Zahl hat Tausende von Stellen; eine kürzere schreiben</translation>
    </message>
    <message>
        <source>{name}, line {line}: {shown} {reason}; {remedy}</source>
        <translation>{name}, Zeile {line}: {shown} {reason}; {remedy}</translation>
    </message>
    <message>
        <source>{name}/{name_2} is a link to another place</source>
        <translation>{name}/{name_2} ist ein Verweis an einen anderen Ort</translation>
    </message>
    <message>
        <source>{name}/{name_2} is missing or is not a column of numbers</source>
        <translation>{name}/{name_2} fehlt oder ist keine Spalte von Zahlen</translation>
    </message>
    <message>
        <source>{name}: too long for a bench file; keep it below {largest_text} characters</source>
        <translation>{name}: zu lang für eine Aufbau-Datei; unter {largest_text} Zeichen bleiben</translation>
    </message>
    <message>
        <source>{name}@moment_id is no text</source>
        <translation>{name}@moment_id ist kein Text</translation>
    </message>
    <message>
        <source>{name}@{name_2} is no text</source>
        <translation>{name}@{name_2} ist kein Text</translation>
    </message>
    <message>
        <source>{name}@{name_2} is too large</source>
        <translation>{name}@{name_2} ist zu groß</translation>
    </message>
    <message>
        <source>{negative} of {number} negative</source>
        <translation>{negative} von {number} negativ</translation>
    </message>
    <message>
        <source>{numerator_v} V (higher heating value) over the cell voltage</source>
        <translation>{numerator_v} V (Brennwert) durch die Zellspannung</translation>
    </message>
    <message>
        <source>{out} could not be begun: other exports into its folder are in the way; try again</source>
        <translation>{out} ließ sich nicht beginnen: andere Exporte in diesen Ordner sind im Weg; noch einmal versuchen</translation>
    </message>
    <message>
        <source>{out} exists; choose another name, or add --replace to replace it</source>
        <translation>{out} gibt es schon; einen anderen Namen wählen, oder zum Ersetzen --replace angeben</translation>
    </message>
    <message>
        <source>{out} is a folder; name a file in it, such as {inside}</source>
        <translation>{out} ist ein Ordner; eine Datei darin nennen, etwa {inside}</translation>
    </message>
    <message>
        <source>{out} was not written: {why_not}</source>
        <translation>{out} wurde nicht geschrieben: {why_not}</translation>
    </message>
    <message>
        <source>{out}: a decimal comma is only for .csv; a spreadsheet shows .xlsx as its own settings say</source>
        <translation>{out}: ein Dezimalkomma gibt es nur für .csv; eine Tabellenkalkulation zeigt .xlsx nach ihren eigenen Einstellungen</translation>
    </message>
    <message>
        <source>{out}: a size is only for pictures ({pictures}); leave --size away</source>
        <translation>{out}: eine Größe gibt es nur für Bilder ({pictures}); --size weglassen</translation>
    </message>
    <message>
        <source>{packets} packets from {port} were lost; by the board&apos;s clock {samples} samples of each channel are missing. They stay a gap. If this goes on, lower the board&apos;s rate or raise the line&apos;s speed.</source>
        <translation>{packets} Pakete von {port} gingen verloren; nach der Uhr der Platine fehlen {samples} Messwerte jedes Kanals. Sie bleiben eine Lücke. Geht das so weiter, die Rate der Platine senken oder die Baudrate erhöhen.</translation>
    </message>
    <message>
        <source>{packets} packets of the board were lost ({samples} samples)</source>
        <translation>{packets} Pakete der Platine gingen verloren ({samples} Messwerte)</translation>
    </message>
    <message>
        <source>{parameters} parameters need more</source>
        <translation>{parameters} Parameter brauchen mehr</translation>
    </message>
    <message>
        <source>{parent} takes no more data ({error}). The readings are kept in memory and written as soon as there is room: free some space now.</source>
        <translation>{parent} nimmt keine Daten mehr an ({error}). Die Messwerte bleiben im Speicher und werden geschrieben, sobald Platz ist: jetzt Platz schaffen.</translation>
    </message>
    <message>
        <source>{path} belongs to the tables that would be replaced, and was changed since they were written; move it elsewhere, or choose another name for the new tables</source>
        <translation>{path} gehört zu den Tabellen, die ersetzt würden, und wurde seither geändert; verschieben Sie die Datei, oder wählen Sie für die neuen Tabellen einen anderen Namen</translation>
    </message>
    <message>
        <source>{path} cannot be opened: {too_slow}</source>
        <translation>{path} lässt sich nicht öffnen: {too_slow}</translation>
    </message>
    <message>
        <source>{path} cannot be read ({error}); check its permissions</source>
        <translation>{path} ist nicht lesbar ({error}); die Zugriffsrechte prüfen</translation>
    </message>
    <message>
        <source>{path} cannot be read ({error}); name a picture (PNG, JPEG, WebP)</source>
        <translation>{path} ist nicht lesbar ({error}); ein Bild nennen (PNG, JPEG, WebP)</translation>
    </message>
    <message>
        <source>{path} cannot be read ({strerror}); check the name and permissions</source>
        <translation>{path} ist nicht lesbar ({strerror}); Namen und Zugriffsrechte prüfen</translation>
    </message>
    <message>
        <source>{path} cannot be read any further ({error}); check that it is still there, then open it again</source>
        <translation>{path} lässt sich nicht weiter lesen ({error}); prüfen, ob die Datei noch da ist, dann neu öffnen</translation>
    </message>
    <message>
        <source>{path} could not be changed ({error}); it is as it was</source>
        <translation>{path} ließ sich nicht ändern ({error}); sie ist, wie sie war</translation>
    </message>
    <message>
        <source>{path} could not be looked at: the look was ended from outside ({name}), or memory was short; try again</source>
        <translation>{path} ließ sich nicht ansehen: das wurde von außen beendet ({name}), oder der Speicher war knapp; noch einmal versuchen</translation>
    </message>
    <message>
        <source>{path} could not be painted: its size takes too much memory</source>
        <translation>{path} ließ sich nicht malen: die Größe braucht zu viel Speicher</translation>
    </message>
    <message>
        <source>{path} could not be written</source>
        <translation>{path} ließ sich nicht schreiben</translation>
    </message>
    <message>
        <source>{path} exists; a live file is thrown away at the end, so name one that is not there</source>
        <translation>{path} gibt es schon; eine Mitlesedatei wird am Ende weggeworfen, daher eine nennen, die es nicht gibt</translation>
    </message>
    <message>
        <source>{path} exists; choose another name, or add --replace</source>
        <translation>{path} gibt es schon; einen anderen Namen wählen, oder --replace angeben</translation>
    </message>
    <message>
        <source>{path} has been replaced by another recording; open it again</source>
        <translation>{path} wurde durch eine andere Aufzeichnung ersetzt; neu öffnen</translation>
    </message>
    <message>
        <source>{path} has just been replaced; try again</source>
        <translation>{path} wurde gerade ersetzt; noch einmal versuchen</translation>
    </message>
    <message>
        <source>{path} holds no channel; there is nothing to write</source>
        <translation>{path} enthält keinen Kanal; es gibt nichts zu schreiben</translation>
    </message>
    <message>
        <source>{path} holds no run: its first entry is missing or damaged, nothing can be read</source>
        <translation>{path} enthält keine Messung: der erste Eintrag fehlt oder ist beschädigt, nichts ist lesbar</translation>
    </message>
    <message>
        <source>{path} holds readings of a channel that it does not describe</source>
        <translation>{path} enthält Messwerte eines Kanals, den es nicht beschreibt</translation>
    </message>
    <message>
        <source>{path} is a folder and is not replaced; choose another name, or move it</source>
        <translation>{path} ist ein Ordner und wird nicht ersetzt; einen anderen Namen wählen oder ihn verschieben</translation>
    </message>
    <message>
        <source>{path} is a folder; name a file in it</source>
        <translation>{path} ist ein Ordner; eine Datei darin nennen</translation>
    </message>
    <message>
        <source>{path} is a folder; name a recording in it (a file ending in .h5)</source>
        <translation>{path} ist ein Ordner; eine Aufzeichnung darin nennen (eine Datei, die auf .h5 endet)</translation>
    </message>
    <message>
        <source>{path} is another recording than when it was opened; open it again</source>
        <translation>{path} ist eine andere Aufzeichnung als beim Öffnen; neu öffnen</translation>
    </message>
    <message>
        <source>{path} is being edited by another process; try again later</source>
        <translation>{path} wird gerade von einem anderen Prozess geändert; später noch einmal versuchen</translation>
    </message>
    <message>
        <source>{path} is being replaced all the time; open it again later</source>
        <translation>{path} wird immerzu ersetzt; später neu öffnen</translation>
    </message>
    <message>
        <source>{path} is being written by another process; stop that recording first</source>
        <translation>{path} wird von einem anderen Prozess geschrieben; jene Aufzeichnung zuerst beenden</translation>
    </message>
    <message>
        <source>{path} is damaged: {column} cannot be read from number {begin} to {end}; galvanote check &apos;{path}&apos; says what is whole</source>
        <translation>{path} ist beschädigt: {column} ist von Nummer {begin} bis {end} nicht lesbar; galvanote check &apos;{path}&apos; sagt, was heil ist</translation>
    </message>
    <message>
        <source>{path} is no data package of an exported run; import its table of readings instead, with --time and --voltage</source>
        <translation>{path} ist kein Datenpaket einer exportierten Messung; importieren Sie stattdessen die Tabelle der Werte, mit --time und --voltage</translation>
    </message>
    <message>
        <source>{path} is no data package: it is not JSON in UTF-8; check the name</source>
        <translation>{path} ist kein Datenpaket: kein JSON in UTF-8; prüfen Sie den Namen</translation>
    </message>
    <message>
        <source>{path} is no list of calibrations ({error}); move it away, and calibrate again</source>
        <translation>{path} ist keine Liste von Kalibrierungen ({error}); sie wegräumen und neu kalibrieren</translation>
    </message>
    <message>
        <source>{path} is no longer there (removed, renamed, or its disk taken away) and could not be written anew ({error}): from now on nothing is safe there. Everything recorded so far is still within reach while this run goes on: name a second place now.</source>
        <translation>{path} ist nicht mehr da (entfernt, umbenannt, oder die Platte weggenommen) und ließ sich nicht neu schreiben ({error}): ab jetzt ist dort nichts sicher. Alles bisher Aufgezeichnete ist noch erreichbar, solange diese Messung läuft: jetzt einen zweiten Ort angeben.</translation>
    </message>
    <message>
        <source>{path} is no name for a file on this system; choose another, such as {possible}</source>
        <translation>{path} ist auf diesem System kein Name für eine Datei; einen anderen wählen, zum Beispiel {possible}</translation>
    </message>
    <message>
        <source>{path} is not a journal, none lies beside it, and it is no whole recording: nothing can be recovered from it; name a journal (ending in {suffix}) or a folder</source>
        <translation>{path} ist kein Journal, daneben liegt keines, und es ist keine vollständige Aufzeichnung: daraus lässt sich nichts wiederherstellen; ein Journal (endet auf {suffix}) oder einen Ordner nennen</translation>
    </message>
    <message>
        <source>{path} is not a recording, or a damaged one: it cannot be opened as HDF5; if a file of that name ending in .journal lies beside it, recover that</source>
        <translation>{path} ist keine Aufzeichnung, oder eine beschädigte: sie lässt sich nicht als HDF5 öffnen; liegt eine Datei dieses Namens mit der Endung .journal daneben, diese abschließen</translation>
    </message>
    <message>
        <source>{path} is not a recording, or not a whole one: {reason}</source>
        <translation>{path} ist keine Aufzeichnung, oder keine vollständige: {reason}</translation>
    </message>
    <message>
        <source>{path} is not a whole journal: {error}</source>
        <translation>{path} ist kein vollständiges Journal: {error}</translation>
    </message>
    <message>
        <source>{path} is not a whole recording: in channel {channel} {fault}; use another copy of it if there is one</source>
        <translation>{path} ist keine vollständige Aufzeichnung: in Kanal {channel} {fault}; wenn es eine andere Kopie gibt, diese nehmen</translation>
    </message>
    <message>
        <source>{path} is not a whole recording: {error}; use another copy of it if there is one</source>
        <translation>{path} ist keine vollständige Aufzeichnung: {error}; wenn es eine andere Kopie gibt, diese nehmen</translation>
    </message>
    <message>
        <source>{path} is not a whole recording: {fault}</source>
        <translation>{path} ist keine vollständige Aufzeichnung: {fault}</translation>
    </message>
    <message>
        <source>{path} is not as a recorder writes it: in {name} {fault}</source>
        <translation>{path} ist nicht, wie ein Aufzeichner es schreibt: in {name} {fault}</translation>
    </message>
    <message>
        <source>{path} is not there; check the name and the folder</source>
        <translation>{path} ist nicht da; Namen und Ordner prüfen</translation>
    </message>
    <message>
        <source>{path} is not there; name a journal (ending in {suffix}) or a folder</source>
        <translation>{path} ist nicht da; ein Journal (endet auf {suffix}) oder einen Ordner nennen</translation>
    </message>
    <message>
        <source>{path} is still being recorded; type the moment into the recorder, or end the run first</source>
        <translation>{path} wird noch aufgezeichnet; den Moment dort eintippen, oder die Messung zuerst beenden</translation>
    </message>
    <message>
        <source>{path} may not be read; check its permissions</source>
        <translation>{path} ist nicht lesbar; die Zugriffsrechte prüfen</translation>
    </message>
    <message>
        <source>{path} was changed since it was opened and cannot be read; use another copy of it</source>
        <translation>{path} wurde seit dem Öffnen geändert und ist nicht lesbar; eine andere Kopie nehmen</translation>
    </message>
    <message>
        <source>{path} was cut off; first: galvanote recover &apos;{path}.journal&apos;</source>
        <translation>{path} wurde unterbrochen; zuerst: galvanote recover &apos;{path}.journal&apos;</translation>
    </message>
    <message>
        <source>{path} was removed, renamed or replaced while it was being written. It has been written anew, with everything recorded so far; leave it alone until the run has ended.</source>
        <translation>{path} wurde beim Schreiben entfernt, umbenannt oder ersetzt. Es ist neu geschrieben, mit allem bisher Aufgezeichneten; bis zum Ende der Messung in Ruhe lassen.</translation>
    </message>
    <message>
        <source>{path}, line {line}: a character is not UTF-8; save the file as UTF-8 text</source>
        <translation>{path}, Zeile {line}: ein Zeichen ist nicht UTF-8; die Datei als UTF-8-Text speichern</translation>
    </message>
    <message>
        <source>{path}: a recording&apos;s name ends in .h5; write --out {name}.h5</source>
        <translation>{path}: der Name einer Aufzeichnung endet auf .h5; --out {name}.h5 schreiben</translation>
    </message>
    <message>
        <source>{path}: cannot be read ({strerror}); check its permissions</source>
        <translation>{path}: nicht lesbar ({strerror}); die Zugriffsrechte prüfen</translation>
    </message>
    <message>
        <source>{path}: that is a folder; name the bench file in it</source>
        <translation>{path}: das ist ein Ordner; die Aufbau-Datei darin nennen</translation>
    </message>
    <message>
        <source>{path}: there is no such bench file; check the name and the folder</source>
        <translation>{path}: diese Aufbau-Datei gibt es nicht; Namen und Ordner prüfen</translation>
    </message>
    <message>
        <source>{payload} bytes are too few for a block of samples</source>
        <translation>{payload} Bytes sind zu wenig für einen Block von Messwerten</translation>
    </message>
    <message>
        <source>{port} could not be opened: {seen}. Check the address; it reads socket://HOST:PORT.</source>
        <translation>{port} ließ sich nicht öffnen: {seen}. Die Adresse prüfen; sie lautet socket://HOST:PORT.</translation>
    </message>
    <message>
        <source>{port} could not be opened: {seen}. Check the cable, or choose another port.</source>
        <translation>{port} ließ sich nicht öffnen: {seen}. Das Kabel prüfen, oder einen anderen Anschluss wählen.</translation>
    </message>
    <message>
        <source>{port} does not answer {query}. Is the meter on, is its remote interface set to {baud} baud 8N1, and is the cable the right one (crossed or straight)?</source>
        <translation>{port} antwortet nicht auf {query}. Ist das Messgerät an, steht seine Fernsteuerung auf {baud} Baud 8N1, und ist das Kabel das richtige (gekreuzt oder gerade)?</translation>
    </message>
    <message>
        <source>{port} does not answer. Is that computer on, and on the same network?</source>
        <translation>{port} antwortet nicht. Ist jener Rechner an, und im selben Netz?</translation>
    </message>
    <message>
        <source>{port} does not take {baud} baud ({seen}). Choose the speed that the instrument&apos;s manual names.</source>
        <translation>{port} nimmt {baud} Baud nicht an ({seen}). Die Geschwindigkeit wählen, die im Handbuch des Geräts steht.</translation>
    </message>
    <message>
        <source>{port} exists, but no device is behind it. Plug in the cable or choose another port.</source>
        <translation>{port} gibt es, aber dahinter ist kein Gerät. Das Kabel einstecken oder einen anderen Anschluss wählen.</translation>
    </message>
    <message>
        <source>{port} is in use by another program. Close it: a serial monitor, or a second copy of this one.</source>
        <translation>{port} wird von einem anderen Programm benutzt. Es schließen: einen seriellen Monitor, oder ein zweites Fenster dieses Programms.</translation>
    </message>
    <message>
        <source>{port} is not a serial port. Choose another port.</source>
        <translation>{port} ist kein serieller Anschluss. Einen anderen Anschluss wählen.</translation>
    </message>
    <message>
        <source>{port} is not open. Open it first.</source>
        <translation>{port} ist nicht offen. Erst öffnen.</translation>
    </message>
    <message>
        <source>{port} is not there. Plug in the cable or choose another port.</source>
        <translation>{port} ist nicht da. Das Kabel einstecken oder einen anderen Anschluss wählen.</translation>
    </message>
    <message>
        <source>{port} sends without being asked, so it is not a meter that answers queries. Use the kind of source that listens, for example text:{port}</source>
        <translation>{port} sendet ungefragt, ist also kein Messgerät, das auf Abfragen antwortet. Die Art von Quelle nehmen, die zuhört, zum Beispiel text:{port}</translation>
    </message>
    <message>
        <source>{port}: that host is not known here. Check its name, or write its number.</source>
        <translation>{port}: diesen Rechner kennt man hier nicht. Den Namen prüfen, oder seine Nummer schreiben.</translation>
    </message>
    <message>
        <source>{port}: the number of the port is missing or impossible. It reads socket://HOST:PORT.</source>
        <translation>{port}: die Nummer des Anschlusses fehlt oder ist unmöglich. Die Form ist socket://HOST:PORT.</translation>
    </message>
    <message>
        <source>{port}: this kind of link is not known. Use a device, socket://HOST:PORT or rfc2217://HOST:PORT</source>
        <translation>{port}: diese Art von Verbindung ist nicht bekannt. Ein Gerät nennen, socket://HOST:PORT oder rfc2217://HOST:PORT</translation>
    </message>
    <message>
        <source>{quantity}: {shown} is refused, {reason}; {accepted}</source>
        <translation>{quantity}: {shown} wird abgelehnt, {reason}; {accepted}</translation>
    </message>
    <message>
        <source>{readings} far off the others, the furthest by {furthest} mV (a lead or an electrode that was touched?); they count all the same, without them the mean would be {mean_without} V</source>
        <translation>{readings} weit neben den anderen, der fernste um {furthest} mV (eine Leitung oder Elektrode berührt?); sie zählen trotzdem mit, ohne sie wäre der Mittelwert {mean_without} V</translation>
    </message>
    <message>
        <source>{readings} readings are missing by the board&apos;s clock</source>
        <translation>nach der Uhr der Platine fehlen {readings} Messwerte</translation>
    </message>
    <message>
        <source>{recording} could not be changed (it is write-protected); it is as it was. Take the protection away, or change a copy of it.</source>
        <translation>{recording} konnte nicht geändert werden (die Datei ist schreibgeschützt); sie ist, wie sie war. Heben Sie den Schreibschutz auf, oder ändern Sie eine Kopie davon.</translation>
    </message>
    <message>
        <source>{recording} could not be changed ({error}); it is as it was. Check free space and permissions.</source>
        <translation>{recording} ließ sich nicht ändern ({error}); sie ist, wie sie war. Freien Platz und Zugriffsrechte prüfen.</translation>
    </message>
    <message>
        <source>{resistor_ohm} ohm</source>
        <translation>{resistor_ohm} Ohm</translation>
    </message>
    <message>
        <source>{said}; its journal is there: galvanote recover &apos;{journal}&apos;</source>
        <translation>{said}; das Journal ist da: galvanote recover &apos;{journal}&apos;</translation>
    </message>
    <message>
        <source>{said}; name another file, or use a copy of it</source>
        <translation>{said}; eine andere Datei nennen, oder eine Kopie davon verwenden</translation>
    </message>
    <message>
        <source>{said}; try again, or use a copy of it</source>
        <translation>{said}; noch einmal versuchen, oder eine Kopie davon verwenden</translation>
    </message>
    <message>
        <source>{share} % of the current would flow through the meter beside the cell; take one of higher input resistance.</source>
        <translation>{share} % des Stroms flössen durch das Messgerät an der Zelle vorbei; eines mit höherem Eingangswiderstand nehmen.</translation>
    </message>
    <message>
        <source>{size} readings are too few to go by; let the meter send for longer (--for 20s)</source>
        <translation>{size} Messwerte sind zu wenig als Grundlage; das Messgerät länger senden lassen (--for 20s)</translation>
    </message>
    <message>
        <source>{size} readings were marked as held, repeated or suspect; they are kept but not used.</source>
        <translation>{size} Messwerte wurden als festgehalten, wiederholt oder fraglich markiert; sie werden behalten, aber nicht verwendet.</translation>
    </message>
    <message>
        <source>{target} exists; choose another name, or add --replace to replace it</source>
        <translation>{target} gibt es schon; einen anderen Namen wählen, oder zum Ersetzen --replace angeben</translation>
    </message>
    <message>
        <source>{target} is being recorded by another process; choose another name</source>
        <translation>{target} wird von einem anderen Prozess aufgezeichnet; einen anderen Namen wählen</translation>
    </message>
    <message>
        <source>{time_s} is still to come, the run has reached {now_s}; give a time up to that</source>
        <translation>{time_s} kommt erst noch, die Messung ist bei {now_s}; eine Zeit bis dahin angeben</translation>
    </message>
    <message>
        <source>{time_s} min</source>
        <translation>{time_s} min</translation>
    </message>
    <message>
        <source>{time_s} s is after the end of the run ({duration_s} s); give a time within it</source>
        <translation>{time_s} s liegt nach dem Ende der Messung ({duration_s} s); eine Zeit darin angeben</translation>
    </message>
    <message>
        <source>{times} and {most} more</source>
        <translation>{times} und {most} weitere</translation>
    </message>
    <message>
        <source>{true_v} V shown as {shown_v} V ({readings} readings, {day}</source>
        <translation>{true_v} V angezeigt als {shown_v} V ({readings} Messwerte, {day}</translation>
    </message>
    <message>
        <source>{typed} is no display; write for example 2.251 or 2251 mV</source>
        <translation>{typed} ist keine Anzeige; zum Beispiel 2.251 oder 2251 mV schreiben</translation>
    </message>
    <message>
        <source>{unit} (then write {number})</source>
        <translation>{unit} (dann {number} schreiben)</translation>
    </message>
    <message>
        <source>{unit} (then write {value})</source>
        <translation>{unit} (dann {value} schreiben)</translation>
    </message>
    <message>
        <source>{value} ({repeats} more like this before)</source>
        <translation>{value} (zuvor noch {repeats} solche)</translation>
    </message>
    <message>
        <source>{value} That was the {misses_to_give_up}th time in a row. Is the meter on, and still set to DC volts?</source>
        <translation>{value} Das war das {misses_to_give_up}. Mal hintereinander. Ist das Messgerät an, und noch auf Gleichspannung?</translation>
    </message>
    <message>
        <source>{value} is no time to wait; write for example 90s, 15m or &quot;{until_settled}&quot;</source>
        <translation>{value} ist keine Zeit zum Warten; zum Beispiel 90s, 15m oder &quot;{until_settled}&quot; schreiben</translation>
    </message>
    <message>
        <source>{value} is not a duration; write for example 90, 90s, 15m or 2h</source>
        <translation>{value} ist keine Dauer; zum Beispiel 90, 90s, 15m oder 2h schreiben</translation>
    </message>
    <message>
        <source>{value} is not a run time; write for example 12:30 (minutes:seconds) or 750</source>
        <translation>{value} ist keine Zeit der Messung; zum Beispiel 12:30 (Minuten:Sekunden) oder 750 schreiben</translation>
    </message>
    <message>
        <source>{value} is not a source address: write KIND:PORT, for example cell:demo or scpi:/dev/ttyUSB0</source>
        <translation>{value} ist keine Adresse einer Quelle: ART:ANSCHLUSS schreiben, zum Beispiel cell:demo oder scpi:/dev/ttyUSB0</translation>
    </message>
    <message>
        <source>{value} names no port: write {kind}:PORT, for example {kind}:/dev/ttyUSB0</source>
        <translation>{value} nennt keinen Anschluss: {kind}:ANSCHLUSS schreiben, zum Beispiel {kind}:/dev/ttyUSB0</translation>
    </message>
    <message>
        <source>{value}: the key {key} is given twice</source>
        <translation>{value}: der Schlüssel {key} ist zweimal angegeben</translation>
    </message>
    <message>
        <source>{value}: {key}={key_2} must be a whole number</source>
        <translation>{value}: {key}={key_2} muss eine ganze Zahl sein</translation>
    </message>
    <message>
        <source>{value}: {key}={value_2} is not a number; write for example {key}={default}</source>
        <translation>{value}: {key}={value_2} ist keine Zahl; zum Beispiel {key}={default} schreiben</translation>
    </message>
    <message>
        <source>{value}: {key}={value_2} is outside {low} to {high}</source>
        <translation>{value}: {key}={value_2} liegt außerhalb von {low} bis {high}</translation>
    </message>
    <message>
        <source>{wanted} and 10 000 names like it are taken; move some files away</source>
        <translation>{wanted} und 10 000 ähnliche Namen sind vergeben; einige Dateien wegräumen</translation>
    </message>
    <message>
        <source>{what} is at {time_s} s</source>
        <translation>{what} liegt bei {time_s} s</translation>
    </message>
    <message>
        <source>{where}: there is no moment {moment} for {name}; give the table of moments, too</source>
        <translation>{where}: Es gibt keinen Zeitpunkt {moment} für {name}; geben Sie auch die Tabelle der Zeitpunkte an</translation>
    </message>
    <message>
        <source>{where}: {name} is no file beside this table; put it there</source>
        <translation>{where}: {name} ist keine Datei neben dieser Tabelle; legen Sie sie dorthin</translation>
    </message>
    <message>
        <source>{whole} {size} readings bear the same time: the clock of their source stood still there, or the table holds no times. No duration, drift or charge follows from them.</source>
        <translation>{whole} {size} Messwerte tragen dieselbe Zeit: die Uhr ihrer Quelle stand dort still, oder die Tabelle enthält keine Zeiten. Dauer, Drift und Ladung folgen daraus nicht.</translation>
    </message>
    <message>
        <source>{words}, provisional: a plateau was not settled</source>
        <translation>{words}, vorläufig: ein Plateau war nicht eingeschwungen</translation>
    </message>
    <message>
        <source>{words}, {temperature_c} degC, {pressure_pa} kPa, all charge splits water</source>
        <translation>{words}, {temperature_c} degC, {pressure_pa} kPa, alle Ladung spaltet Wasser</translation>
    </message>
    <message>
        <source>the disk is full</source>
        <translation>der Datenträger ist voll</translation>
    </message>
    <message>
        <source>your share of the disk is used up</source>
        <translation>der eigene Anteil am Datenträger ist aufgebraucht</translation>
    </message>
    <message>
        <source>you have no permission for it</source>
        <translation>dazu fehlt die Berechtigung</translation>
    </message>
    <message>
        <source>the system does not allow it</source>
        <translation>das System erlaubt es nicht</translation>
    </message>
    <message>
        <source>that disk can only be read</source>
        <translation>dieser Datenträger lässt sich nur lesen</translation>
    </message>
    <message>
        <source>it is not there</source>
        <translation>es ist nicht vorhanden</translation>
    </message>
    <message>
        <source>a part of its path is no folder</source>
        <translation>ein Teil des Pfads ist kein Ordner</translation>
    </message>
    <message>
        <source>it is a folder</source>
        <translation>es ist ein Ordner</translation>
    </message>
    <message>
        <source>the name is taken already</source>
        <translation>der Name ist schon vergeben</translation>
    </message>
    <message>
        <source>the name is too long</source>
        <translation>der Name ist zu lang</translation>
    </message>
    <message>
        <source>something else is using it</source>
        <translation>etwas anderes benutzt es gerade</translation>
    </message>
    <message>
        <source>the disk or the device reports an error</source>
        <translation>der Datenträger oder das Gerät meldet einen Fehler</translation>
    </message>
    <message>
        <source>there is no such device</source>
        <translation>ein solches Gerät gibt es hier nicht</translation>
    </message>
    <message>
        <source>no device is behind it</source>
        <translation>dahinter ist kein Gerät</translation>
    </message>
    <message>
        <source>no answer came in time</source>
        <translation>es kam rechtzeitig keine Antwort</translation>
    </message>
    <message>
        <source>nobody is listening there</source>
        <translation>dort nimmt niemand etwas an</translation>
    </message>
    <message>
        <source>the other end broke the connection off</source>
        <translation>die Gegenseite hat die Verbindung abgebrochen</translation>
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
        <source>What happened?</source>
        <translation>Was geschah?</translation>
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
        <source>Pictures</source>
        <translation>Bilder</translation>
    </message>
    <message>
        <source>Pictures of the chosen moment (Ctrl+I)</source>
        <translation>Bilder des gewählten Moments (Strg+I)</translation>
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
        <source>Press M when something happens: the time is kept at once, words can follow.</source>
        <translation>Wenn etwas geschieht, M drücken: die Zeit steht sofort fest, Worte können folgen.</translation>
    </message>
    <message>
        <source>pictures: {count}</source>
        <translation>Bilder: {count}</translation>
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
        <source>{count} more</source>
        <translation>noch {count}</translation>
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
    <name>Pictures</name>
    <message>
        <source>There is no picture in the clipboard. Copy one first.</source>
        <translation>In der Zwischenablage liegt kein Bild. Zuerst eines kopieren.</translation>
    </message>
    <message>
        <source>pasted</source>
        <translation>eingefügt</translation>
    </message>
    <message>
        <source>Pictures to attach</source>
        <translation>Bilder zum Anhängen</translation>
    </message>
    <message>
        <source>Pictures (*.png *.jpg *.jpeg *.webp)</source>
        <translation>Bilder (*.png *.jpg *.jpeg *.webp)</translation>
    </message>
    <message>
        <source>Save a copy of the picture</source>
        <translation>Kopie des Bildes speichern</translation>
    </message>
    <message>
        <source>The copy could not be written: {why}</source>
        <translation>Die Kopie ließ sich nicht schreiben: {why}</translation>
    </message>
    <message>
        <source>The picture before (Left)</source>
        <translation>Das Bild davor (Pfeil links)</translation>
    </message>
    <message>
        <source>The next picture (Right)</source>
        <translation>Das nächste Bild (Pfeil rechts)</translation>
    </message>
    <message>
        <source>Add a file …</source>
        <translation>Datei hinzufügen …</translation>
    </message>
    <message>
        <source>Paste</source>
        <translation>Einfügen</translation>
    </message>
    <message>
        <source>Paste (Ctrl+V)</source>
        <translation>Einfügen (Strg+V)</translation>
    </message>
    <message>
        <source>Save a copy …</source>
        <translation>Kopie speichern …</translation>
    </message>
    <message>
        <source>Remove</source>
        <translation>Entfernen</translation>
    </message>
    <message>
        <source>Remove (Delete)</source>
        <translation>Entfernen (Entf)</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>Reading the picture …</source>
        <translation>Das Bild wird gelesen …</translation>
    </message>
    <message>
        <source>This kind of picture cannot be shown here. It is kept as it is.</source>
        <translation>Ein Bild dieser Art lässt sich hier nicht zeigen. Es bleibt, wie es ist.</translation>
    </message>
    <message>
        <source>No picture yet. Drop one here, paste it, or add a file.</source>
        <translation>Noch kein Bild. Eines hierher ziehen, einfügen oder eine Datei hinzufügen.</translation>
    </message>
</context>
<context>
    <name>Reading</name>
    <message>
        <source>outside the picture</source>
        <translation>außerhalb des Bildes</translation>
    </message>
    <message>
        <source>no longer in memory</source>
        <translation>nicht mehr im Speicher</translation>
    </message>
    <message>
        <source>beyond range</source>
        <translation>außerhalb des Bereichs</translation>
    </message>
    <message>
        <source>measured from here</source>
        <translation>von hier an verglichen</translation>
    </message>
    <message>
        <source>{time} later</source>
        <translation>{time} später</translation>
    </message>
    <message>
        <source>{time} earlier</source>
        <translation>{time} früher</translation>
    </message>
    <message>
        <source>the meter held its display</source>
        <translation>die Anzeige des Messgeräts war gehalten</translation>
    </message>
    <message>
        <source>less a value stored in the meter</source>
        <translation>abzüglich eines im Messgerät gespeicherten Werts</translation>
    </message>
    <message>
        <source>the meter&apos;s battery was low</source>
        <translation>die Batterie des Messgeräts war schwach</translation>
    </message>
    <message>
        <source>came with a fault on the line</source>
        <translation>kam mit einem Fehler der Leitung</translation>
    </message>
    <message>
        <source>doubtful: unlike its neighbours</source>
        <translation>zweifelhaft: anders als die benachbarten</translation>
    </message>
    <message>
        <source>sent twice</source>
        <translation>zweimal gesendet</translation>
    </message>
    <message>
        <source>its time is less sure</source>
        <translation>seine Zeit ist weniger sicher</translation>
    </message>
    <message>
        <source>first after a gap of {time}</source>
        <translation>der erste nach einer Lücke von {time}</translation>
    </message>
    <message>
        <source>last before a gap of {time}</source>
        <translation>der letzte vor einer Lücke von {time}</translation>
    </message>
    <message>
        <source>moment {number}: {words}</source>
        <translation>Moment {number}: {words}</translation>
    </message>
    <message>
        <source>{count} readings here: {low} to {high}, others beyond range</source>
        <translation>{count} Messwerte hier: {low} bis {high}, andere außerhalb des Bereichs</translation>
    </message>
    <message>
        <source>{count} readings here: {low} to {high}</source>
        <translation>{count} Messwerte hier: {low} bis {high}</translation>
    </message>
    <message>
        <source>Return sets a cursor on a reading, the arrows move it. Return again, or Shift with an arrow, compares two. Esc leaves.</source>
        <translation>Eingabe setzt eine Lesemarke auf einen Messwert, die Pfeile bewegen sie. Noch einmal Eingabe, oder Umschalt mit einem Pfeil, vergleicht zwei. Esc beendet es.</translation>
    </message>
    <message>
        <source>run {number}: {words}</source>
        <translation>Messung {number}: {words}</translation>
    </message>
    <message>
        <source>no reading</source>
        <translation>kein Messwert</translation>
    </message>
    <message>
        <source>it has none at all</source>
        <translation>sie hat gar keinen</translation>
    </message>
    <message>
        <source>not begun yet</source>
        <translation>noch nicht begonnen</translation>
    </message>
    <message>
        <source>within a gap</source>
        <translation>in einer Lücke</translation>
    </message>
    <message>
        <source>already ended</source>
        <translation>schon zu Ende</translation>
    </message>
    <message>
        <source>its file cannot be read there</source>
        <translation>ihre Datei ist dort nicht lesbar</translation>
    </message>
    <message>
        <source>at {time}</source>
        <translation>um {time}</translation>
    </message>
</context>
<context>
    <name>Recordings folder</name>
    <message>
        <source>{folder} is there, but you may not read and write in it; have that allowed, or choose another folder on the bench.</source>
        <translation>{folder} ist da, aber dort darf nicht gelesen und geschrieben werden; bitte das erlauben lassen oder beim Aufbau einen anderen Ordner wählen.</translation>
    </message>
    <message>
        <source>Nothing can be written to {folder}; choose another folder.</source>
        <translation>In {folder} kann nichts geschrieben werden; bitte einen anderen Ordner wählen.</translation>
    </message>
    <message>
        <source>{folder} is not there; choose another folder on the bench.</source>
        <translation>{folder} ist nicht da; bitte beim Aufbau einen anderen Ordner wählen.</translation>
    </message>
</context>
<context>
    <name>Refused changes</name>
    <message>
        <source>{why} Not in the file: {changes}.</source>
        <translation>{why} Nicht in der Datei: {changes}.</translation>
    </message>
    <message>
        <source>Try again</source>
        <translation>Noch einmal versuchen</translation>
    </message>
    <message>
        <source>Copy the words</source>
        <translation>Worte kopieren</translation>
    </message>
    <message>
        <source>The words are in the clipboard; paste them where you like.</source>
        <translation>Die Worte sind in der Zwischenablage und lassen sich überall einfügen.</translation>
    </message>
</context>
<context>
    <name>Replace question</name>
    <message>
        <source>Replace the files that are there?</source>
        <translation>Vorhandene Dateien ersetzen?</translation>
    </message>
    <message>
        <source>Replace</source>
        <translation>Ersetzen</translation>
    </message>
    <message>
        <source>Keep them</source>
        <translation>Behalten</translation>
    </message>
    <message>
        <source>In {folder}, once the new ones are whole:</source>
        <translation>In {folder}, sobald die neuen vollständig sind:</translation>
    </message>
    <message>
        <source>Removed, since the new tables have no such file:</source>
        <translation>Entfernt, weil die neuen Tabellen keine solche Datei haben:</translation>
    </message>
    <message>
        <source>Names of the files</source>
        <translation>Namen der Dateien</translation>
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
        <source>Saved</source>
        <translation>Gespeichert</translation>
    </message>
    <message>
        <source>Ending …</source>
        <translation>Wird beendet …</translation>
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
        <source>Point or Return reads values  ·  wheel zooms  ·  drag looks back  ·  drag a flag to move it</source>
        <translation>Zeigen oder Eingabe liest Werte ab  ·  Rad zoomt  ·  Ziehen blickt zurück  ·  Fahne ziehen verschiebt sie</translation>
    </message>
    <message>
        <source>The run is over, and not saved yet.</source>
        <translation>Die Messung ist beendet und noch nicht gespeichert.</translation>
    </message>
    <message>
        <source>The run is not recording.</source>
        <translation>Es wird nicht aufgezeichnet.</translation>
    </message>
    <message>
        <source>{sentence} One moment.</source>
        <translation>{sentence} Ein Moment.</translation>
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
        <translation>Schritte der Messung planen</translation>
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
        <source>the time is up: the run can end</source>
        <translation>die Zeit ist um: die Messung kann enden</translation>
    </message>
    <message>
        <source>the voltage has settled: the run can end</source>
        <translation>eingeschwungen: die Messung kann enden</translation>
    </message>
    <message>
        <source>the run can end in {time}</source>
        <translation>die Messung kann in {time} enden</translation>
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
        <source>when you like</source>
        <translation>wann es passt</translation>
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
        <source>Found: {found} of {count} recordings in {folder}</source>
        <translation>Gefunden: {found} von {count} Aufzeichnungen in {folder}</translation>
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
        <source>lies off the others</source>
        <translation>weicht von den anderen ab</translation>
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
        <source>“{name}”</source>
        <translation>„{name}“</translation>
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
        <source>Without the two that lie off: {mean} (for comparison only).</source>
        <translation>Ohne die beiden abweichenden: {mean} (nur zum Vergleich).</translation>
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
        <source>{count} runs, {loading} to be read …</source>
        <translation>{count} Messungen, noch {loading} …</translation>
    </message>
    <message>
        <source>None of these runs has a reading of the cell voltage.</source>
        <translation>Keine dieser Messungen hat einen Messwert der Zellspannung.</translation>
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
        <source>Show its findings</source>
        <translation>Ihre Ergebnisse zeigen</translation>
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
        <source>No recordings here yet</source>
        <translation>Hier liegt noch keine Aufzeichnung</translation>
    </message>
    <message>
        <source>A run that is recorded appears here by itself. To see others choose their folder, or drop recordings on this page.</source>
        <translation>Eine neue Messung erscheint hier von selbst. Um andere zu sehen, deren Ordner wählen oder Aufzeichnungen auf diese Seite ziehen.</translation>
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
        <source>Curves over one another</source>
        <translation>Kurven übereinander</translation>
    </message>
    <message>
        <source>Curve of the run</source>
        <translation>Kurve der Messung</translation>
    </message>
    <message>
        <source>Every reading was beyond the range of the meter.</source>
        <translation>Jeder Messwert lag außerhalb des Messbereichs.</translation>
    </message>
    <message>
        <source>No voltage of the cell was read.</source>
        <translation>Es wurde keine Zellspannung gemessen.</translation>
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
        <translation>Simulierte Stunde</translation>
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
        <source>Opening {name}, {number} of {count} …</source>
        <translation>{name} wird geöffnet, {number} von {count} …</translation>
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
        <source>Bring a moment back</source>
        <translation>Einen Moment zurückholen</translation>
    </message>
    <message>
        <source>Attach a picture</source>
        <translation>Bild anhängen</translation>
    </message>
    <message>
        <source>Remove a picture</source>
        <translation>Bild entfernen</translation>
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
    <name>Unkept changes</name>
    <message>
        <source>{moment} (removed)</source>
        <translation>{moment} (entfernt)</translation>
    </message>
    <message>
        <source>a picture</source>
        <translation>ein Bild</translation>
    </message>
    <message>
        <source>{count} pictures</source>
        <translation>{count} Bilder</translation>
    </message>
    <message>
        <source>When the program last ended, changes of {name} could not be saved: {changes}. {why}</source>
        <translation>Als das Programm zuletzt endete, ließen sich Änderungen an {name} nicht speichern: {changes}. {why}</translation>
    </message>
    <message>
        <source>Look at its moments, and make again what is missing.</source>
        <translation>Die Momente ansehen und noch einmal ändern, was fehlt.</translation>
    </message>
    <message>
        <source>Show its findings</source>
        <translation>Ihre Ergebnisse zeigen</translation>
    </message>
    <message>
        <source>Try again</source>
        <translation>Noch einmal versuchen</translation>
    </message>
    <message>
        <source>Not all of these changes of {name} could be made: {changes}.</source>
        <translation>Nicht alle dieser Änderungen an {name} ließen sich vornehmen: {changes}.</translation>
    </message>
    <message>
        <source>Make them now</source>
        <translation>Jetzt vornehmen</translation>
    </message>
    <message>
        <source>{why} Not in the file: {changes}.</source>
        <translation>{why} Nicht in der Datei: {changes}.</translation>
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
    <message>
        <source>A run is being recorded</source>
        <translation>Eine Messung wird aufgezeichnet</translation>
    </message>
</context>
<context>
    <name>Wall view</name>
    <message>
        <source>Nothing is being recorded.</source>
        <translation>Es wird nichts aufgezeichnet.</translation>
    </message>
    <message>
        <source>Esc leads back.</source>
        <translation>Esc führt zurück.</translation>
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
        <source>Tagged at {time}: {moment}</source>
        <translation>Festgehalten bei {time}: {moment}</translation>
    </message>
    <message>
        <source>View for the wall</source>
        <translation>Großanzeige</translation>
    </message>
    <message>
        <source>Danger</source>
        <translation>Gefahr</translation>
    </message>
</context>
<context>
    <name>Window</name>
    <message>
        <source>The run before is still being saved. Try again in a moment.</source>
        <translation>Die Messung davor wird noch gespeichert. Gleich noch einmal versuchen.</translation>
    </message>
    <message>
        <source>Moment at {time} removed.</source>
        <translation>Moment bei {time} entfernt.</translation>
    </message>
    <message>
        <source>Moment at {time} removed; its picture stays in the file.</source>
        <translation>Moment bei {time} entfernt; sein Bild bleibt in der Datei.</translation>
    </message>
    <message>
        <source>Moment at {time} removed; its {count} pictures stay in the file.</source>
        <translation>Moment bei {time} entfernt; seine {count} Bilder bleiben in der Datei.</translation>
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
        <source>To the bench</source>
        <translation>Zum Aufbau</translation>
    </message>
    <message>
        <source>Save again</source>
        <translation>Noch einmal speichern</translation>
    </message>
    <message>
        <source>Choose a folder</source>
        <translation>Einen Ordner wählen</translation>
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
        <source>{name} is open; the run goes on.</source>
        <translation>{name} ist geöffnet; die Messung läuft weiter.</translation>
    </message>
    <message>
        <source>{name} is open.</source>
        <translation>{name} ist geöffnet.</translation>
    </message>
    <message>
        <source>{name} is closed as soon as what goes on with it is done.</source>
        <translation>{name} wird geschlossen, sobald fertig ist, was damit noch läuft.</translation>
    </message>
    <message>
        <source>Show its findings</source>
        <translation>Ihre Ergebnisse zeigen</translation>
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
    <message>
        <source>A run is being recorded. Stop and save it first (Ctrl+E).</source>
        <translation>Eine Messung wird aufgezeichnet. Zuerst beenden und speichern (Strg+E).</translation>
    </message>
    <message>
        <source>Opening {name}</source>
        <translation>{name} wird geöffnet</translation>
    </message>
    <message>
        <source>What you choose in this window holds until it is closed: {file} cannot be written. Have that allowed, and choose again.</source>
        <translation>Was hier gewählt wird, gilt, bis dieses Fenster geschlossen wird: {file} kann nicht geschrieben werden. Das erlauben lassen und noch einmal wählen.</translation>
    </message>
</context>
</TS>
