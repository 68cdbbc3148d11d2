<?xml version="1.0"?>
<gml:FeatureCollection xmlns:gml="http://www.opengis.net/gml" xmlns:xlink="http://www.w3.org/1999/xlink">
<gml:featureMember><Plot gml:id="p1"><name>Plot</name><gml:geometry><gml:Polygon srsName="EPSG:4326"><gml:exterior xlink:href="http://127.0.0.1:9/ring"/></gml:Polygon></gml:geometry></Plot></gml:featureMember>
</gml:FeatureCollection>
