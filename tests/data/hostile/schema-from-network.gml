<?xml version="1.0"?>
<gml:FeatureCollection xmlns:gml="http://www.opengis.net/gml" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" xsi:schemaLocation="http://127.0.0.1:9/ http://127.0.0.1:9/plots.xsd">
<gml:featureMember><Plot gml:id="p1"><name>Plot</name><gml:geometry><gml:Polygon srsName="EPSG:4326"><gml:exterior><gml:LinearRing><gml:posList>10 50 10.01 50 10.01 50.01 10 50</gml:posList></gml:LinearRing></gml:exterior></gml:Polygon></gml:geometry></Plot></gml:featureMember>
</gml:FeatureCollection>
